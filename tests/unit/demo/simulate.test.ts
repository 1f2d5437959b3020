import { describe, expect, it } from 'vitest';
import { Board } from '#core/day/board.ts';
import { pieceParts, stagesOf } from '#core/day/pieces.ts';
import { evolve } from '#core/day/evolve.ts';
import { type Entry, type Fact, Entry as EntrySchema } from '#core/day/ops.ts';
import { isPulled, lessonEnd, lessonsOf, markOf, nextStage, rampTime } from '#core/day/preps.ts';
import { redactBoard } from '#core/day/redact.ts';
import { Sequence } from '#core/day/sequence.ts';
import { MINUTE_MS } from '#core/time/units.ts';
import { Afternoon, AFTER_MS, lastLessonEnd, ROLE_OF } from '../../../demo/afternoon.ts';
import { DEFAULT_SEED } from '../../../demo/arguments.ts';
import { CANCELLED, LATE_COMER, LOST_SHOE, MOVED_LESSON, NO_SHOW } from '../../../demo/script.ts';
import { demoDay, simulateDay, type SimulatedDay } from '../../../demo/simulate.ts';

const SEEDS = Array.from({ length: 30 }, (_, i) => i + 1);
const days = SEEDS.map((seed) => simulateDay({ seed }));
const story = simulateDay({ seed: DEFAULT_SEED });

const facts = <K extends Fact['kind']>({ entries }: SimulatedDay, kind: K): Extract<Fact, { kind: K }>[] =>
  entries.flatMap((entry) => entry.facts.filter((fact) => fact.kind === kind)) as Extract<
    Fact,
    { kind: K }
  >[];

function tackedAt(board: Board, horse: string, lesson: string): number | null {
  const prep = Object.values(board.day.preps).find(
    (one) => one.horse === horse && one.places.some((ref) => ref.lesson === lesson),
  );
  if (!prep || nextStage(prep) !== null) return null;
  return Math.max(...stagesOf(prep).map((stage) => markOf(prep, stage)?.at ?? Infinity));
}

describe('a simulated afternoon', () => {
  it('is the same from the same seed, and another from another', () => {
    expect(simulateDay({ seed: 12 })).toEqual(simulateDay({ seed: 12 }));
    const told = days.map(({ entries }) => JSON.stringify(entries));
    expect(new Set(told).size).toBe(SEEDS.length);
  });

  it('is the same on any date, but for the date', () => {
    // 2026-07-21 keeps the zone's summer time of 2026-05-12, so every instant moves by whole days.
    const later = simulateDay({ seed: 12, date: '2026-07-21' });
    const early = simulateDay({ seed: 12, date: '2026-05-12' });
    const shape = ({ entries, startAt }: SimulatedDay) =>
      entries.map(({ id, at, by, why }) => ({ id, by, why, after: at - startAt }));
    expect(shape(later)).toEqual(shape(early));
    expect(later.startAt - early.startAt).toBe(70 * 24 * 60 * MINUTE_MS);
  });

  it('gives entries and boards that the hub would take', () => {
    for (const day of days.slice(0, 5)) {
      for (const entry of day.entries) expect(EntrySchema.safeParse(entry).success).toBe(true);
      expect(Board.safeParse(day.board).success).toBe(true);
      expect(day.entries.reduce<Board>((board, entry) => evolve(board, entry), day.start)).toEqual(day.board);
      expect(day.entries.map(({ seq }) => seq)).toEqual(day.entries.map((_, i) => i + 1));
    }
  });

  it('has every cue of coordinator and instructor accepted', () => {
    const spoken = days.flatMap(({ entries }) => entries.filter(isCue));
    expect(spoken.length).toBeGreaterThan(10 * SEEDS.length);
    expect(spoken.filter(({ why }) => why !== null)).toEqual([]);
  });

  it('has every horse of every lesson tacked before the lesson is over', () => {
    for (const { board } of days) {
      for (const lesson of Object.values(board.day.lessons)) {
        for (const place of lesson.places.filter((one) => !one.cancelled)) {
          expect(isPulled(board.barn, place.horse ?? '')).toBe(false);
          expect(tackedAt(board, place.horse ?? '', lesson.id)).toBeLessThan(lessonEnd(lesson));
        }
        const horses = lesson.places.filter((one) => !one.cancelled).map(({ horse }) => horse);
        expect(new Set(horses).size).toBe(horses.length);
      }
    }
  });

  it('is neither hopeless nor dull: some horses late at the ramp, most on time', () => {
    const late = days.flatMap(({ board }) =>
      Object.values(board.day.preps)
        .filter((prep) => prep.places.length > 0 && !isPulled(board.barn, prep.horse))
        .map((prep) => {
          const at = tackedAt(board, prep.horse, lessonsOf(board.day, prep)[0]?.id ?? '') ?? Infinity;
          return at > (rampTime(board.day, prep, board.barn.rules) ?? 0);
        }),
    );
    const part = late.filter(Boolean).length / late.length;
    expect(part).toBeGreaterThan(0.01);
    expect(part).toBeLessThan(0.15);
  });

  // Nature: a stage takes some time, a person does one thing at a time, and so does a horse.
  it('has nobody and no horse at two things at once', () => {
    for (const { worked } of days) {
      for (const { from, to } of worked) expect(to).toBeGreaterThan(from);
      for (const key of ['by', 'prep'] as const) {
        const of = (one: (typeof worked)[number]) => (key === 'by' ? one.by : pieceParts(one.piece)?.prep);
        const sorted = [...worked].sort((a, b) => a.from - b.from);
        const last = new Map<string, number>();
        for (const one of sorted) {
          const id = of(one) ?? '';
          expect(one.from).toBeGreaterThanOrEqual(last.get(id) ?? 0);
          last.set(id, one.to);
        }
      }
    }
  });

  // Task times are skewed to the right: common practice, no source for barns. The barn's own minutes are the yardstick.
  it('takes about the barn’s usual time for each stage, skewed to the right', () => {
    for (const stage of ['feet', 'coat', 'tack'] as const) {
      const usual = story.start.barn.rules.stageMinutes[stage];
      const lengths = days.flatMap(({ worked }) =>
        worked
          .filter(({ piece }) => piece.endsWith(`:${stage}`))
          .map(({ from, to }) => (to - from) / MINUTE_MS),
      );
      const mean = lengths.reduce((sum, x) => sum + x, 0) / lengths.length;
      const central = (power: number) =>
        lengths.reduce((sum, x) => sum + (x - mean) ** power, 0) / lengths.length;
      expect(mean).toBeGreaterThan(0.85 * usual);
      expect(mean).toBeLessThan(1.2 * usual);
      expect(central(3) / central(2) ** 1.5).toBeGreaterThan(0.3);
    }
  });

  it('has people forget the start tap, tap two stages at once, and take a wrong tap back', () => {
    const all = days.flatMap(({ entries }) => entries);
    const finished = all.flatMap(({ facts: made }) => made.filter((fact) => fact.kind === 'stagesFinished'));
    const started = all.flatMap(({ facts: made }) => made.filter((fact) => fact.kind === 'stageStarted'));
    expect(started.length).toBeLessThan(0.95 * finished.length);
    expect(finished.filter((fact) => fact.stages.length === 2).length).toBeGreaterThan(SEEDS.length / 2);
    const undone = all.filter(({ facts: made }) => made[0]?.kind === 'undone');
    expect(undone.length).toBeGreaterThan(SEEDS.length / 4);
    for (const entry of undone) expect(entry.why).toBeNull();
  });

  it('needs nothing that an aisle tablet does not show', () => {
    const { board, from, ...rest } = demoDay('2026-05-12');
    const afternoon = new Afternoon({ board, from, ...rest, seed: 3 });
    const sequence = new Sequence({ board, seq: 0, at: from, seen: [] });
    const entries: Entry[] = [];
    let due = from;
    for (;;) {
      due = Math.max(due, Math.round(afternoon.dueAt));
      if (due > (lastLessonEnd(sequence.board) ?? 0) + AFTER_MS) break;
      for (const { tablet, op } of afternoon.act(due, (role) => redactBoard(sequence.board, role))) {
        const { entry } = sequence.accept(op, ROLE_OF[tablet], due);
        if (entry) entries.push(entry);
      }
    }
    expect(entries).toEqual(simulateDay({ seed: 3 }).entries);
  });

  it('leaves the work where it was given when nobody coordinates', () => {
    const alone = simulateDay({ seed: 4, coordinated: false, script: [] });
    expect(facts(alone, 'workMoved')).toEqual([]);
    const day = simulateDay({ seed: 4, habits: { startForgotten: 0, twoAtOnce: 0, wrongTile: 0 } });
    expect(facts(day, 'undone')).toEqual([]);
  });
});

describe('the story of the first afternoon', () => {
  it('has somebody who does not come, and the horse they were given is ready all the same', () => {
    expect(facts(story, 'volunteerNotComing')).toEqual([{ kind: 'volunteerNotComing', volunteer: NO_SHOW }]);
    expect(facts(story, 'volunteerArrived').some(({ volunteer }) => volunteer === NO_SHOW)).toBe(false);
    const theirs = story.start.day.hands[NO_SHOW]?.queue ?? [];
    expect(theirs).toHaveLength(3);
    const moved = facts(story, 'workMoved').flatMap(({ pieces }) => pieces);
    expect(theirs.filter((piece) => moved.includes(piece))).toEqual(theirs);
    const lesson = story.board.day.lessons['l2'];
    expect(tackedAt(story.board, 'fern', 'l2')).toBeLessThanOrEqual(lesson?.start ?? 0);
  });

  it('has a late comer whose horse is made ready by somebody else, on time', () => {
    const came = story.entries.find(
      ({ facts: made }) => made[0]?.kind === 'volunteerArrived' && made[0].volunteer === LATE_COMER,
    );
    const dot = Object.values(story.board.day.preps).find(
      (prep) => prep.horse === 'dot' && prep.places[0]?.lesson === 'l1',
    );
    const ramp = dot ? (rampTime(story.board.day, dot, story.board.barn.rules) ?? 0) : 0;
    const { feet, coat, tack } = story.board.barn.rules.stageMinutes;
    // Left with the late comer, the horse could not have been at the ramp on time.
    expect((came?.at ?? 0) + (feet + coat + tack) * MINUTE_MS).toBeGreaterThan(ramp);
    expect(tackedAt(story.board, 'dot', 'l1')).toBeLessThanOrEqual(ramp);
    expect(dot?.marks.tack[0]?.by).not.toBe(LATE_COMER);
  });

  it('has a rider who cancels', () => {
    const place = story.board.day.lessons[CANCELLED.lesson]?.places.find(({ id }) => id === CANCELLED.place);
    expect(place?.cancelled).toBe(true);
  });

  it('has a lost shoe seen, read and pulled for the farrier, and a stand-in in the place', () => {
    const kinds = story.entries.flatMap(({ facts: made }) => made).map(({ kind }) => kind);
    const seen = story.entries.find(
      ({ facts: made }) => made[0]?.kind === 'findingSeen' && made[0].horse === LOST_SHOE.horse,
    );
    const note = story.board.findings.find(({ id }) => id === seen?.id);
    expect(note?.finding).toEqual({ on: 'foot', foot: 'LF', kind: 'shoe-lost' });
    expect(note?.read.map(({ by }) => by)).toEqual(['i1']);
    expect(story.board.barn.horses[LOST_SHOE.horse]?.holds.map(({ kind, by }) => [kind, by])).toEqual([
      ['farrier', 'i1'],
    ]);
    expect(kinds.indexOf('horsePulled')).toBeLessThan(kinds.indexOf('standInsTaken'));
    const place = story.board.day.lessons[LOST_SHOE.lesson]?.places.find(({ id }) => id === LOST_SHOE.place);
    expect(place?.horse).toBe(LOST_SHOE.standIn);
    expect(tackedAt(story.board, LOST_SHOE.standIn, LOST_SHOE.lesson)).not.toBeNull();
  });

  it('has a lesson moved by ten minutes, a shared prep and a change of tack', () => {
    const before = story.start.day.lessons[MOVED_LESSON]?.start ?? 0;
    expect(story.board.day.lessons[MOVED_LESSON]?.start).toBe(before + 10 * MINUTE_MS);
    const preps = Object.values(story.board.day.preps);
    expect(preps.some((prep) => prep.kind === 'full' && prep.places.length > 1)).toBe(true);
    expect(preps.some((prep) => prep.kind === 'tackChange' && prep.marks.tack.length > 0)).toBe(true);
  });

  it('moves the board every few seconds at the usual speed', () => {
    // Mean over the busy part: until the last horse is tacked.
    const last = Math.max(...story.worked.map(({ to }) => to));
    const busy = story.entries.filter(({ at }) => at <= last);
    const seconds = (last - story.startAt) / 1000 / 20 / busy.length;
    expect(seconds).toBeGreaterThan(3);
    expect(seconds).toBeLessThan(8);
  });
});

function isCue({ device, id }: Entry): boolean {
  return device === 'coordinator-hand' || device === 'door-indoor' || id.startsWith('aisle-');
}
