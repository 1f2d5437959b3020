/** What the tablets of the storm tap: a small barn first, then anything their place lets them, sensible or not. */
import type { Foot } from '#core/care/feetOrder.ts';
import { STAGES } from '#core/barn/stage.ts';
import { DEFAULT_RULES } from '#core/barn/rules.ts';
import type { OpFact } from '#core/day/ops.ts';
import type { Role } from '#core/day/places.ts';
import type { Random } from '#core/plan/search/random.ts';
import { HOUR_MS, MINUTE_MS } from '#core/time/units.ts';

const HORSES = 5;
const PEOPLE = 4;
const LESSONS = 2;

const horseId = (i: number): string => `h${i}`;
const personId = (i: number): string => `v${i}`;
const lessonId = (i: number): string => `l${i}`;

/** Facts that make the barn and its day, for a lesson hour from `now` (barn time, ms) on. */
export function barnFacts(now: number): OpFact[] {
  const each = <T>(count: number, make: (i: number) => T): T[] =>
    Array.from({ length: count }, (_, i) => make(i));
  return [
    ...each(HORSES, (i): OpFact => ({
      kind: 'recordSaved',
      saved: { table: 'stalls', record: { id: `s${i}`, name: `${i}`, metres: 4 * i } },
    })),
    ...each(HORSES, (i): OpFact => ({ kind: 'recordSaved', saved: { table: 'horses', record: horse(i) } })),
    ...each(PEOPLE, (i): OpFact => ({
      kind: 'recordSaved',
      saved: {
        table: 'volunteers',
        record: {
          id: personId(i),
          name: `Person ${i}`,
          clearances: i === 0 ? ['feet'] : ['feet', 'coat', 'tack'],
          private: { pace: 1, usualHours: [] },
        },
      },
    })),
    {
      kind: 'recordSaved',
      saved: { table: 'staff', record: { id: 'ines', name: 'Ines', role: 'instructor' } },
    },
    { kind: 'recordSaved', saved: { table: 'riders', record: { id: 'r0', callName: 'Robin' } } },
    ...each(LESSONS, (i): OpFact => ({
      kind: 'lessonAdded',
      lesson: {
        id: lessonId(i),
        name: `Lesson ${i}`,
        start: now + (i + 1) * HOUR_MS,
        minutes: 30,
        arena: null,
        instructor: 'ines',
        cancelled: false,
        places: each(HORSES, (h) => ({
          id: `p${h}`,
          rider: 'r0',
          horse: horseId(h),
          tack: 't0',
          leader: null,
          sideWalkers: [],
          cancelled: false,
        })),
      },
    })),
  ];
}

function horse(i: number) {
  return {
    id: horseId(i),
    name: `Horse ${i}`,
    stall: `s${i}`,
    feet: { LF: 'shod', LH: 'barefoot', RF: 'shod', RH: 'barefoot' } as const,
    tackLists: [{ id: 't0', name: 'English', items: ['Pad', 'Saddle'], kg: null }],
    experiencedFor: [],
    notes: '',
    cautions: [],
    holds: [],
  };
}

/** Where facts come from: how often each kind, and what it may be. `last`: the op this tablet tapped before. */
type Draw = (random: Random, now: number, last: string) => OpFact;

const one = <T>(random: Random, list: readonly T[]): T => list[random.below(list.length)]!;
const prep = (random: Random): string => `${horseId(random.below(HORSES))}.${1 + random.below(2)}`;
const horseOf = (random: Random): string => horseId(random.below(HORSES));
const personOf = (random: Random): string => personId(random.below(PEOPLE + 1));

const FINISHED: Draw = (random) => ({
  kind: 'stagesFinished',
  prep: prep(random),
  stages: STAGES.slice(0, 1 + random.below(3)),
});
const STARTED: Draw = (random) => ({ kind: 'stageStarted', prep: prep(random), stage: one(random, STAGES) });
const SEEN: Draw = (random) => ({
  kind: 'findingSeen',
  horse: horseOf(random),
  finding: { on: 'foot', foot: one<Foot>(random, ['LF', 'LH', 'RF', 'RH']), kind: 'heat' },
  words: '',
});
const ARRIVED: Draw = (random) => ({ kind: 'volunteerArrived', volunteer: personOf(random) });
const UNDONE: Draw = (_random, _now, last) => ({ kind: 'undone', op: last });
const PULLED: Draw = (random) => ({
  kind: 'horsePulled',
  horse: horseOf(random),
  why: 'shoe',
  hold: 'instructor',
});
const RELEASED: Draw = (random) => ({ kind: 'horseReleased', horse: horseOf(random), word: 'sound' });
const MOVED: Draw = (random) => ({
  kind: 'workMoved',
  pieces: [`${prep(random)}:${one(random, STAGES)}`],
  to: random.below(4) === 0 ? null : personOf(random),
  before: random.below(2) === 0 ? null : `${prep(random)}:feet`,
});
const LEFT: Draw = (random) => ({ kind: 'volunteerLeft', volunteer: personOf(random) });
const LESSON_MOVED: Draw = (random, now) => ({
  kind: 'lessonMoved',
  lesson: lessonId(random.below(LESSONS)),
  start: now + random.below(180) * MINUTE_MS,
});
const HORSE_CHANGED: Draw = (random) => ({
  kind: 'placeHorseChanged',
  lesson: lessonId(random.below(LESSONS)),
  place: `p${random.below(HORSES)}`,
  horse: random.below(5) === 0 ? null : horseOf(random),
  tack: 't0',
});
const HORSE_SAVED: Draw = (random) => ({
  kind: 'recordSaved',
  saved: { table: 'horses', record: horse(random.below(HORSES)) },
});
const RULES: Draw = (random) => ({
  kind: 'rulesChanged',
  rules: { ...DEFAULT_RULES, warmUpMinutes: 5 + random.below(10) },
});

const DRAWS: Record<Role, readonly Draw[]> = {
  aisle: [FINISHED, FINISHED, STARTED, STARTED, STARTED, SEEN, ARRIVED, UNDONE, UNDONE, PULLED],
  door: [PULLED, RELEASED, RELEASED, RELEASED, SEEN, UNDONE, FINISHED],
  coordinator: [
    MOVED,
    MOVED,
    LEFT,
    ARRIVED,
    LESSON_MOVED,
    HORSE_CHANGED,
    HORSE_SAVED,
    RULES,
    RELEASED,
    RELEASED,
    UNDONE,
  ],
};

/** Something a person at this place may tap at barn time `now` (ms), or try to. */
export function someFact(role: Role, random: Random, now: number, last: string): OpFact {
  return one(random, DRAWS[role])(random, now, last);
}

/** Who taps: somebody the barn knows, nobody, or now and then somebody it does not. */
export function somebody(random: Random): string | null {
  const i = random.below(PEOPLE + 3);
  return i < PEOPLE + 1 ? personId(i) : i === PEOPLE + 1 ? 'ines' : null;
}
