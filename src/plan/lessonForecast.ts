/** Is the lesson safe? Its horses taken together, draw by draw: one late horse is enough. */
import type { LessonForecast, LessonWord, LessonWork, PlanInput } from './model.ts';
import { quantileOf } from './stageTimes.ts';
import { instantAfter } from './usable.ts';

/** Per prep, in the same draws for all of them: when its horse is ready, ms after now; Infinity: not today. */
export type ReadyDraws = ReadonlyMap<string, Float64Array>;

export function lessonForecast(lesson: LessonWork, input: PlanInput, draws: ReadyDraws): LessonForecast {
  const { now } = input;
  const horses = lesson.horses.flatMap(({ prep, rampTime, freeFrom }) => {
    const ready = draws.get(prep);
    const work = input.works.find((one) => one.prep === prep);
    return ready && work ? [{ ready, work, dueIn: rampTime - now, freeIn: (freeFrom ?? now) - now }] : [];
  });
  const count = Math.max(1, ...horses.map(({ ready }) => ready.length));
  const last = new Float64Array(count);
  let inTime = 0;
  for (let s = 0; s < count; s += 1) {
    let latest = -Infinity;
    let allInTime = true;
    for (const { ready, dueIn, freeIn } of horses) {
      const at = Math.max(ready[s] ?? Infinity, freeIn);
      latest = Math.max(latest, at);
      // Out of the lesson before, on the same tack, a horse is at the ramp as soon as that lesson lets it go.
      if ((ready[s] ?? Infinity) > dueIn) allInTime = false;
    }
    last[s] = latest;
    if (allInTime) inTime += 1;
  }
  const whole = lesson.missing === null && horses.length === lesson.horses.length && horses.length > 0;
  const chance = whole ? inTime / count : 0;
  const ready = whole ? instantAfter(now, quantileOf(last.sort(), 0.5)) : null;
  const tacked = horses.every(({ work }) => work.pieces.length === 0);
  return {
    lesson: lesson.id,
    chance: roundedChance(chance),
    ready,
    word: lesson.missing ?? (tacked && whole ? 'ready' : wordFor(chance, ready, input.certainty)),
  };
}

function wordFor(chance: number, ready: number | null, certainty: number): LessonWord {
  if (ready === null) return 'nobody';
  if (chance >= certainty) return 'onTime';
  return chance >= 0.5 ? 'tight' : 'late';
}

/** To a thousandth: what the wire carries. */
export function roundedChance(chance: number): number {
  return Math.round(chance * 1000) / 1000;
}
