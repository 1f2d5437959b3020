/** How lessons and people stand in one playing, and what differs between two. */
import type { LessonWork } from '../model.ts';
import { NOBODY } from '../simulate/shop.ts';
import { instantAfter } from '../usable.ts';
import type { Gain, LessonChange, PersonChange, Why } from './model.ts';
import { range } from './range.ts';
import type { Trial } from './trial.ts';

/** Ms after now; Infinity: not today. `late` NaN: nothing to be late with. */
type Standing = { readonly at: number; readonly late: number };

export type Outlook = {
  /** Per work. */
  readonly late: readonly number[];
  readonly lessons: readonly Standing[];
  readonly people: readonly Standing[];
  /** Per piece: when it is begun, and what it costs as a feet check. */
  readonly start: readonly number[];
  readonly feetCost: readonly number[];
};

/** Of the last run of `trial`. */
export function outlookOf(trial: Trial): Outlook {
  const { input, shop, play } = trial;
  const works = new Map(input.works.map((work, j) => [work.prep, j]));
  return {
    late: range(0, shop.workCount).map((j) => trial.lateness(j)),
    lessons: input.lessons.map((lesson) => lessonStanding(trial, lesson, works)),
    people: range(0, shop.workerCount).map((w) => personStanding(trial, w)),
    start: [...play.start],
    feetCost: range(0, shop.pieceCount).map((p) => trial.feetCost(p)),
  };
}

function lessonStanding(trial: Trial, lesson: LessonWork, works: ReadonlyMap<string, number>): Standing {
  const { input, shop, play } = trial;
  let at = -Infinity;
  let late = -Infinity;
  for (const { prep, rampTime, freeFrom } of lesson.horses) {
    const j = works.get(prep);
    const work = input.works[j ?? -1];
    if (j === undefined || !work) continue;
    const last = (shop.firstOf[j + 1] ?? 0) - 1;
    const tacked = (work.markedAt ?? input.now) - input.now;
    const ready = work.pieces.length > 0 ? (play.end[last] ?? Infinity) : tacked;
    at = Math.max(at, ready, freeFrom === null ? -Infinity : freeFrom - input.now);
    late = Math.max(late, ready - (rampTime - input.now));
  }
  return lesson.missing === null ? { at, late } : { at: Infinity, late };
}

function personStanding({ shop, play }: Trial, w: number): Standing {
  let at = -Infinity;
  let late = -Infinity;
  for (let p = 0; p < shop.pieceCount; p += 1) {
    if (play.by[p] !== w) continue;
    at = Math.max(at, play.end[p] ?? Infinity);
    late = Math.max(late, (play.end[p] ?? Infinity) - (shop.urgency[p] ?? Infinity));
  }
  return { at, late };
}

const NOTICED_MS = 1000;

function differs(a: Standing, b: Standing): boolean {
  return away(a.at, b.at) >= NOTICED_MS || away(a.late, b.late) >= NOTICED_MS;
}

function away(a: number, b: number): number {
  return a === b ? 0 : Math.abs(a - b);
}

export function lessonChanges({ input }: Trial, before: Outlook, then: Outlook): LessonChange[] {
  return input.lessons.flatMap((lesson, i) => {
    const [was, is] = [before.lessons[i], then.lessons[i]];
    if (!was || !is || !differs(was, is)) return [];
    return [{ lesson: lesson.id, before: shown(was, input.now), after: shown(is, input.now) }];
  });
}

/** Those that change, and those in `touched`. */
export function personChanges(
  { input }: Trial,
  before: Outlook,
  then: Outlook,
  touched: ReadonlySet<number>,
): PersonChange[] {
  return input.workers.flatMap((worker, w) => {
    const [was, is] = [before.people[w], then.people[w]];
    if (!was || !is || (!differs(was, is) && !touched.has(w))) return [];
    return [{ person: worker.id, before: shown(was, input.now), after: shown(is, input.now) }];
  });
}

function shown({ at, late }: Standing, now: number): LessonChange['before'] {
  return {
    at: instantAfter(now, at),
    lateMs: Number.isFinite(late) ? Math.round(late) : null,
  };
}

const MINUTE = 60_000;

/** Why one would change from `before` to `then`. */
export function whyOf(trial: Trial, before: Outlook, then: Outlook): Why {
  return { gain: gainOf(trial, before, then), later: whoPays(trial, before, then) };
}

function gainOf(trial: Trial, before: Outlook, then: Outlook): Gain {
  const { input, shop, options } = trial;
  const ready = before.late.findIndex(
    (late, j) => late === Infinity && (then.late[j] ?? Infinity) < Infinity,
  );
  if (ready >= 0) return { code: 'getsReady', horse: input.works[ready]?.horse ?? '' };

  // The lesson that was latest, if it gains; else the one that gains most.
  const gaining = before.lessons
    .map((was, i) => ({ i, was: was.late, gain: was.late - (then.lessons[i]?.late ?? was.late) }))
    .filter(({ was, gain }) => was > -options.spareMs && gain >= MINUTE)
    .sort((a, b) => b.was - a.was || b.gain - a.gain);
  const [first] = gaining;
  if (first) {
    const lesson = input.lessons[first.i]?.id ?? '';
    return { code: 'lessonEarlier', lesson, minutes: Math.floor(first.gain / MINUTE) };
  }

  const feet = range(0, shop.pieceCount)
    .map((p) => ({ p, saved: ((before.feetCost[p] ?? 0) - (then.feetCost[p] ?? 0)) / options.findingRate }))
    .reduce((most, one) => (one.saved > most.saved ? one : most), { p: NOBODY, saved: 0 });
  const horse = shop.pieces[feet.p]?.horse;
  if (horse !== undefined && feet.saved >= MINUTE) {
    return { code: 'feetSooner', horse, minutes: Math.floor(feet.saved / MINUTE) };
  }
  return { code: 'lessLate', minutes: Math.max(0, Math.floor((tardy(before) - tardy(then)) / MINUTE)) };
}

function tardy({ late, feetCost }: Outlook): number {
  const finite = late.filter((one) => Number.isFinite(one));
  return finite.reduce((sum, one) => sum + Math.max(0, one), 0) + feetCost.reduce((a, b) => a + b, 0);
}

function whoPays({ input }: Trial, before: Outlook, then: Outlook): Why['later'] {
  let worst: Why['later'] = null;
  for (const [i, lesson] of input.lessons.entries()) {
    const is = then.lessons[i]?.late ?? NaN;
    const was = before.lessons[i]?.late ?? NaN;
    const minutes = Math.ceil((is - Math.max(0, was)) / MINUTE);
    if (is > 0 && minutes >= 1 && Number.isFinite(minutes) && minutes > (worst?.minutes ?? 0)) {
      worst = { lesson: lesson.id, minutes };
    }
  }
  return worst;
}
