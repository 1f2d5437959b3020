/** Stand-ins worked by hand on the tests' small barn: stage minutes 4, 11, 8; ramp times 45 and 90 min after NOON. */
import { describe, expect, test } from 'vitest';
import type { Rider } from '#core/barn/people.ts';
import { DEFAULT_RULES } from '#core/barn/rules.ts';
import type { Lesson } from '#core/barn/lesson.ts';
import type { Board } from '#core/day/board.ts';
import { emptyBoard } from '#core/day/emptyBoard.ts';
import { evolve } from '#core/day/evolve.ts';
import type { Fact } from '#core/day/ops.ts';
import { openStages, prepOf } from '#core/day/preps.ts';
import { regroup } from '#core/day/regroup.ts';
import { boardAfter, readinessByTrial } from '#core/plan/standIns/readiness.ts';
import type { Block, ReadyChance, StandIns } from '#core/plan/standIns/model.ts';
import { placesToCome } from '#core/plan/standIns/placesToCome.ts';
import { standIns, type More } from '#core/plan/standIns/standIns.ts';
import { MINUTE_MS } from '#core/time/units.ts';
import { entry, horse, NOON, smallBoard } from '../../properties/day-arbitraries.ts';

function after(board: Board, ...facts: Fact[]): Board {
  return facts.reduce(
    (b, fact, i) => evolve(b, entry(300 + i, fact, { by: 'ada', id: `t${i}`, at: NOON })),
    board,
  );
}

const pull = (id: string): Fact => ({ kind: 'horsePulled', horse: id, why: 'shoe lost', hold: 'farrier' });
const save = (record: ReturnType<typeof horse>): Fact => ({
  kind: 'recordSaved',
  saved: { table: 'horses', record },
});
const rider = (known: Partial<NonNullable<Rider['private']>>): Fact => ({
  kind: 'recordSaved',
  saved: {
    table: 'riders',
    record: {
      id: 'r1',
      callName: 'Robin',
      private: {
        fullName: 'Robin Example',
        weightKg: 48.5,
        balanced: false,
        needs: '',
        approvedHorses: [],
        notWithHorses: [],
        ...known,
      },
    },
  },
});

/** Stand-ins for a pulled fern. */
function forFern(board: Board, minutes = 0, more: More = {}): StandIns {
  const now = NOON + minutes * MINUTE_MS;
  const pulled = after(board, pull('fern'));
  return standIns(pulled, now, placesToCome(pulled, 'fern', now), readinessByTrial(pulled, now), more);
}

const moves = (found: StandIns) =>
  found.options.map((one) => one.changes.map((c) => `${c.lesson}/${c.place} ${c.horse}`).join(', '));
const blocksOf = (found: StandIns, lesson: string, id: string): readonly Block[] =>
  found.blocked.find((one) => one.lesson === lesson && one.horse === id)?.blocks ?? [];

test('places still to come: those of lessons not begun, or begun less than 20 min ago', () => {
  const board = smallBoard();
  expect(placesToCome(board, 'fern', NOON)).toEqual([
    { lesson: 'L1', place: 'p1' },
    { lesson: 'L2', place: 'p1' },
  ]);
  expect(placesToCome(board, 'fern', NOON + 79 * MINUTE_MS)).toHaveLength(2);
  expect(placesToCome(board, 'fern', NOON + 80 * MINUTE_MS)).toEqual([{ lesson: 'L2', place: 'p1' }]);
});

describe('fern is pulled', () => {
  test('sorrel, free in the first lesson, takes that place; in the second every horse is in use', () => {
    const found = forFern(smallBoard());
    expect(moves(found)).toEqual(['L1/p1 sorrel', 'L1/p1 moss, L1/p2 sorrel']);
    expect(found.exact).toBe(true);
    const [first] = found.options;
    expect(first?.rank).toMatchObject({ uncovered: 1, changed: 1 });
    expect(first?.sideEffects).toContainEqual({ code: 'leaves-place', lesson: 'L2', place: 'p1' });
    expect(blocksOf(found, 'L2', 'fern')).toMatchObject([
      { code: 'held', kinds: ['farrier'], unblock: { do: 'release', wordFrom: 'farrier' } },
    ]);
    expect(blocksOf(found, 'L2', 'moss')).toMatchObject([
      { code: 'same-lesson', unblock: { do: 'freeFirst', lesson: 'L2', place: 'p2' } },
    ]);
  });

  test('ada prepares it: sorrel asks for an experienced person, ben is cleared for neither that nor tack', () => {
    const [first] = forFern(smallBoard()).options;
    expect(first?.tasks).toMatchObject([{ horse: 'sorrel', to: 'ada', stages: ['feet', 'coat', 'tack'] }]);
    expect(first?.fact.work).toEqual([{ lesson: 'L1', place: 'p1', to: 'ada' }]);
    const sorrel = first?.changes[0];
    expect(sorrel?.readiness.chance).toBeGreaterThan(0.9);
    // The load: 48.5 kg and a tenth for balance, and 9 kg of tack; a fifth of 512.25 kg may be carried.
    const load = sorrel?.for.find((one) => one.code === 'load-fits')?.figures;
    expect(load?.totalKg).toBeCloseTo(62.35, 6);
    expect(load?.limitKg).toBeCloseTo(102.45, 6);
  });

  test('one more horse takes both lessons: fewest horses changed, one preparation', () => {
    // No change of tack between the lessons, which would leave too little time for the ramp at 90.
    const sameTack: Fact = {
      kind: 'placeHorseChanged',
      lesson: 'L2',
      place: 'p1',
      horse: 'fern',
      tack: 't1',
    };
    const found = forFern(after(smallBoard(), sameTack, save(horse('willow'))));
    expect(moves(found)[0]).toBe('L1/p1 willow, L2/p1 willow');
    expect(found.blocked).toEqual([]);
    expect(found.options[0]?.changes[0]?.for).toContainEqual({ code: 'several-lessons', lessons: 2 });
    expect(found.options[0]?.tasks).toHaveLength(1);
  });

  test('a rider who may not ride sorrel gets moss, and sorrel goes where moss was', () => {
    const found = forFern(after(smallBoard(), rider({ notWithHorses: ['sorrel'] })));
    expect(moves(found)).toEqual(['L1/p1 moss, L1/p2 sorrel']);
    expect(found.options[0]?.changes.map((change) => change.as)).toEqual(['standIn', 'chain']);
  });

  test('a horse that changes places, and tack with it, keeps what was done on it', () => {
    const board = after(
      smallBoard(),
      rider({ notWithHorses: ['sorrel'] }),
      { kind: 'placeHorseChanged', lesson: 'L1', place: 'p2', horse: 'moss', tack: 't2' },
      { kind: 'placeCancelled', lesson: 'L2', place: 'p2' },
      { kind: 'stagesFinished', prep: 'moss.1', stages: ['feet', 'coat'] },
    );
    const [first] = forFern(board).options;
    const next = first && boardAfter(after(board, pull('fern')), NOON, first.fact);
    const prep = next && prepOf(next.day, 'L1', 'p1');
    expect([prep?.horse, prep?.tack]).toEqual(['moss', 't1']);
    expect(next && prep && openStages(next.barn, prep)).toEqual(['tack']);
  });
});

describe('no weight on record', () => {
  test('is never a yes', () => {
    const found = forFern(after(smallBoard(), rider({ weightKg: null })));
    expect(found.options).toEqual([]);
    expect(blocksOf(found, 'L1', 'sorrel')).toEqual([
      { code: 'ask-instructor', unblock: { do: 'askInstructor', missing: 'rider-weight' } },
    ]);
  });

  test('unless the list an instructor keeps names the horse: then it is said', () => {
    const found = forFern(after(smallBoard(), rider({ weightKg: null, approvedHorses: ['sorrel'] })));
    expect(moves(found)).toEqual(['L1/p1 sorrel']);
    expect(found.options[0]?.changes[0]?.against).toContainEqual({ code: 'weight-unknown', of: 'rider' });
  });
});

describe('what would lift a block', () => {
  test('35 min after noon sorrel needs 23: 13 too late for the ramp at 45; so much later it can', () => {
    const late = forFern(smallBoard(), 35);
    expect(blocksOf(late, 'L1', 'sorrel')).toEqual([
      {
        code: 'not-ready',
        lateMinutes: 13,
        // L2 starts at 105; L1 would end at 103.
        unblock: { do: 'delayLesson', lesson: 'L1', minutes: 13, clashes: [] },
      },
    ]);
    const moved = (minutes: number): Board =>
      after(smallBoard(), { kind: 'lessonMoved', lesson: 'L1', start: NOON + (60 + minutes) * MINUTE_MS });
    const found = (minutes: number): StandIns => {
      const pulled = after(moved(minutes), pull('fern'));
      const now = NOON + 35 * MINUTE_MS;
      const atUsualPace: ReadyChance = (id, place) => readinessByTrial(pulled, now)(id, place, null);
      return standIns(pulled, now, [{ lesson: 'L1', place: 'p1' }], atUsualPace);
    };
    expect(moves(found(13))).toContain('L1/p1 sorrel');
    expect(moves(found(12))).toEqual([]);
  });

  test('a lesson moved into the next one that needs the same horse says so', () => {
    const late = forFern(smallBoard(), 40);
    // 18 min later L1 ends at 108, three minutes into L2 with the same rider and moss.
    expect(blocksOf(late, 'L1', 'sorrel')).toMatchObject([
      { code: 'not-ready', unblock: { minutes: 18, clashes: ['L2'] } },
    ]);
  });

  test('one lesson a day: sorrel would have to give up its own, and nobody else is there for it', () => {
    const { care } = DEFAULT_RULES;
    const rules = { ...DEFAULT_RULES, care: { ...care, workload: { ...care.workload, lessonsPerDay: 1 } } };
    const found = forFern(after(smallBoard(), { kind: 'rulesChanged', rules }));
    expect(found.options).toEqual([]);
    expect(blocksOf(found, 'L1', 'sorrel')).toEqual([
      {
        code: 'workload',
        over: { code: 'lessons-per-day', figure: 2, limit: 1 },
        unblock: { do: 'giveUp', places: [{ lesson: 'L2', place: 'p3' }] },
      },
    ]);
  });

  test('a horse the farrier is overdue for is kept out only where the rule says so', () => {
    const { care } = DEFAULT_RULES;
    const strict = { ...DEFAULT_RULES, care: { ...care, farrier: { ...care.farrier, overdueIsOff: true } } };
    const overdue = after(smallBoard(), { kind: 'farrierCame', horse: 'sorrel', date: '2026-03-15' });
    expect(moves(forFern(overdue))).toContain('L1/p1 sorrel');
    const found = forFern(after(overdue, { kind: 'rulesChanged', rules: strict }));
    expect(moves(found).join()).not.toContain('sorrel');
    expect(blocksOf(found, 'L1', 'sorrel')).toMatchObject([
      { code: 'farrier-overdue', days: 1, unblock: { do: 'farrierVisit' } },
    ]);
  });

  test('a horse that worked six days before is offered for no seventh, and the reason says so', () => {
    const dates = ['05', '06', '07', '08', '09', '10'].map((day) => `2026-05-${day}`);
    const worked = dates.map((date) => ({ date, horses: { sorrel: { lessons: 1, minutes: 30 } } }));
    const free = after(smallBoard(), { kind: 'placeCancelled', lesson: 'L2', place: 'p3' });
    expect(moves(forFern({ ...free, worked: worked.slice(1) })).join()).toContain('sorrel');
    const found = forFern({ ...free, worked });
    expect(moves(found).join()).not.toContain('sorrel');
    expect(blocksOf(found, 'L1', 'sorrel')).toMatchObject([
      { code: 'workload', over: { code: 'days-in-a-row', figure: 7, limit: 6 } },
      { code: 'workload', over: { code: 'days-per-week', figure: 7, limit: 6 } },
    ]);
  });

  test('too heavy in this tack, not in that: the heaviest list that fits is named', () => {
    // 85 kg and a tenth is 93.5; with 9 kg over 102.45, with 6 kg under it.
    const lists = [
      { id: 't1', name: 'English', items: [], kg: 9 },
      { id: 't4', name: 'Felt', items: [], kg: 3 },
      { id: 't5', name: 'Pad', items: [], kg: 6 },
    ];
    const found = forFern(
      after(smallBoard(), rider({ weightKg: 85 }), save(horse('sorrel', { tackLists: lists }))),
    );
    expect(blocksOf(found, 'L1', 'sorrel')).toMatchObject([
      { code: 'over-limit', unblock: { do: 'lighterTack', tack: 't5', name: 'Pad', kg: 6 } },
    ]);
  });

  test('an unread finding the rules would wait for keeps a horse out until somebody has read it', () => {
    const seen = after(smallBoard(), {
      kind: 'findingSeen',
      horse: 'sorrel',
      finding: { on: 'foot', foot: 'LF', kind: 'stone', cameOut: false },
      words: '',
    });
    const found = forFern(seen);
    expect(moves(found)).toEqual([]);
    expect(blocksOf(found, 'L1', 'sorrel')).toMatchObject([
      { code: 'finding', level: 'wait', unread: true, unblock: { do: 'readFindings', findings: ['t0'] } },
    ]);
    const read = after(seen, { kind: 'findingRead', finding: 't0' });
    expect(moves(forFern(read))[0]).toBe('L1/p1 sorrel');
    expect(forFern(read).options[0]?.changes[0]?.against).toContainEqual({
      code: 'finding-read',
      level: 'wait',
    });
  });
});

test('a place whose horse is unsuited: two horses may change riders', () => {
  const board = after(smallBoard(), rider({ notWithHorses: ['sorrel'] }));
  const found = standIns(board, NOON, [{ lesson: 'L1', place: 'p1' }], readinessByTrial(board, NOON));
  expect(moves(found)[0]).toBe('L1/p1 moss, L1/p2 fern');
});

test('no place changes that need not: a short lesson in place of a long one leaves the horse time for its own', () => {
  // 90 min a day. h is in Lb (20) and Lc (45); it can take La (30) and Ld (20, while Lc runs) and keep Lb: 70.
  const lesson = (id: string, at: number, minutes: number, on: string, rider: string | null): Lesson => ({
    id,
    name: id,
    start: NOON + at * MINUTE_MS,
    minutes,
    arena: id,
    instructor: null,
    cancelled: false,
    places: [{ id: 'p', rider, horse: on, tack: 't1', leader: null, sideWalkers: [], cancelled: false }],
  });
  const { care } = DEFAULT_RULES;
  const rules = { ...DEFAULT_RULES, care: { ...care, workload: { ...care.workload, minutesPerDay: 90 } } };
  const board = after(
    emptyBoard('Test', 'America/Denver'),
    { kind: 'rulesChanged', rules },
    ...['g', 'h', 'x', 'y'].map((id) => save(horse(id))),
    rider({ notWithHorses: ['x', 'y'] }),
    { kind: 'dayOpened', date: '2026-05-11' },
    { kind: 'lessonAdded', lesson: lesson('La', 60, 30, 'g', 'r1') },
    { kind: 'lessonAdded', lesson: lesson('Lb', 100, 20, 'h', null) },
    { kind: 'lessonAdded', lesson: lesson('Lc', 150, 45, 'h', null) },
    { kind: 'lessonAdded', lesson: lesson('Ld', 160, 20, 'g', 'r1') },
    pull('g'),
  );
  const found = standIns(board, NOON, placesToCome(board, 'g', NOON), alwaysReady);
  expect(moves(found)).toEqual(['La/p h, Lc/p x, Ld/p h', 'La/p h, Lc/p y, Ld/p h']);
});

const alwaysReady: ReadyChance = () => ({ ready: NOON, chance: 1, spareMs: 60 * MINUTE_MS });

test('a day of sixty horses, sixteen lessons and eight affected places is settled exactly', () => {
  const board = bigDay();
  const affected = placesToCome(board, 'h0', NOON);
  expect(affected.length).toBe(8);
  const { options, exact } = standIns(board, NOON, affected, alwaysReady);
  expect(exact).toBe(true);
  expect(options).toHaveLength(3);
  expect(options[0]?.rank).toMatchObject({ uncovered: 0, changed: 8 });
});

function bigDay(): Board {
  const empty = emptyBoard('Test', 'America/Denver');
  const horses = Array.from({ length: 60 }, (_, i) =>
    horse(`h${i}`, {
      private: {
        weight: { kg: 350 + ((i * 53) % 250), how: 'scale' },
        pony: false,
        condition: 5,
        loadLimit: null,
      },
      holds: i === 0 ? [{ kind: 'today', why: '', by: null, since: NOON }] : [],
    }),
  );
  const riders = Array.from({ length: 40 }, (_, i): Rider => ({
    id: `r${i}`,
    callName: `Rider ${i}`,
    private: {
      fullName: '',
      needs: '',
      weightKg: 25 + ((i * 17) % 60),
      balanced: i % 2 === 0,
      approvedHorses: i % 3 === 0 ? [] : [`h${(i * 7) % 60}`, `h${(i * 11) % 60}`],
      notWithHorses: [`h${(i * 13) % 60}`],
    },
  }));
  const lessons = Array.from({ length: 16 }, (_, k): Lesson => ({
    id: `L${k}`,
    name: `Lesson ${k}`,
    start: NOON + (60 + Math.floor(k / 2) * 45) * MINUTE_MS,
    minutes: 40,
    arena: k % 2 === 0 ? 'a' : 'b',
    instructor: null,
    cancelled: false,
    places: Array.from({ length: 8 }, (_place, p) => ({
      id: `p${p}`,
      rider: `r${(k * 8 + p) % 40}`,
      horse: k % 2 === 0 && p === 0 ? 'h0' : `h${1 + ((k * 8 + p) % 59)}`,
      tack: 't1',
      leader: null,
      sideWalkers: [],
      cancelled: false,
    })),
  }));
  const keyed = <T extends { id: string }>(list: readonly T[]): Record<string, T> =>
    Object.fromEntries(list.map((one) => [one.id, one]));
  const { care } = DEFAULT_RULES;
  const rules = { ...DEFAULT_RULES, care: { ...care, workload: { ...care.workload, lessonsPerDay: 4 } } };
  return {
    ...empty,
    barn: { ...empty.barn, rules, horses: keyed(horses), riders: keyed(riders) },
    day: regroup({ ...empty.day, date: '2026-05-11', lessons: keyed(lessons) }, rules),
  };
}
