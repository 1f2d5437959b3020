/** Offers made on the board itself: every move is taken by `decide` in its turn, and the board then foresees the same. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { generateBarn, afternoonStart } from '../../demo/generate.ts';
import type { Board } from '#core/day/board.ts';
import { Sequence } from '#core/day/sequence.ts';
import type { OpFact } from '#core/day/ops.ts';
import { planInput } from '#core/plan/input.ts';
import { simpleForecast } from '#core/plan/simpleForecast.ts';
import { Rebalanced, type Alternative } from '#core/plan/rebalance/model.ts';
import { rebalance } from '#core/plan/rebalance/rebalance.ts';
import { MINUTE_MS } from '#core/time/units.ts';

const DATE = '2026-05-11';
const START = afternoonStart(DATE);

const dayArb = fc.record({
  size: fc.record({
    horses: fc.integer({ min: 2, max: 10 }),
    people: fc.integer({ min: 1, max: 7 }),
    lessons: fc.integer({ min: 1, max: 4 }),
    seed: fc.nat(10_000),
  }),
  minutesIn: fc.integer({ min: 0, max: 120 }),
  /** People who leave, pieces finished and begun before the answer is asked for, by number. */
  left: fc.array(fc.nat(6), { maxLength: 2 }),
  done: fc.array(fc.nat(9), { maxLength: 4 }),
  begun: fc.array(fc.tuple(fc.nat(9), fc.nat(6)), { maxLength: 2 }),
  nobodys: fc.array(fc.nat(9), { maxLength: 3 }),
});
type DaySpec = typeof dayArb extends fc.Arbitrary<infer T> ? T : never;

class Table {
  readonly #sequence: Sequence;
  readonly now: number;

  constructor(board: Board, now: number) {
    this.#sequence = new Sequence({ board, seq: 0, at: now, seen: [] });
    this.now = now;
  }

  get board(): Board {
    return this.#sequence.board;
  }

  /** Null: taken as said. */
  say(fact: OpFact, by: string | null = null): string | null {
    const id = `op${this.#sequence.seq + 1}`;
    const op = { id, device: 'd1', by, tappedAt: this.now, fact };
    return this.#sequence.accept(op, 'coordinator', this.now).outcome.why?.code ?? null;
  }
}

function tableOf(spec: DaySpec): Table {
  const table = new Table(generateBarn({ ...spec.size, date: DATE }), START + spec.minutesIn * MINUTE_MS);
  const preps = Object.keys(table.board.day.preps);
  const people = Object.keys(table.board.barn.volunteers);
  const of = (list: readonly string[], i: number): string => list[i % list.length] ?? '';
  for (const id of people) table.say({ kind: 'volunteerArrived', volunteer: id });
  if (preps.length === 0) return table;
  for (const i of spec.done) table.say({ kind: 'stagesFinished', prep: of(preps, i), stages: ['feet'] });
  for (const [i, w] of spec.begun) {
    table.say({ kind: 'stageStarted', prep: of(preps, i), stage: 'coat' }, of(people, w));
  }
  for (const i of spec.nobodys) {
    const pieces = (['feet', 'coat', 'tack'] as const).map((stage) => `${of(preps, i)}:${stage}`);
    table.say({ kind: 'workMoved', pieces, to: null, before: null });
  }
  for (const i of spec.left) table.say({ kind: 'volunteerLeft', volunteer: of(people, i) });
  return table;
}

/** Makes the moves and returns the reasons against them. */
function make(table: Table, { moves }: Alternative): (string | null)[] {
  return moves.map(({ pieces, to, before }) => table.say({ kind: 'workMoved', pieces, to, before }));
}

test(
  'every move is taken in its turn, and the board then stands as the offer said',
  { timeout: 60_000 },
  () => {
    fc.assert(
      fc.property(dayArb, (spec) => {
        const asked = tableOf(spec);
        const answer = rebalance(planInput(asked.board, asked.now), { budget: { steps: 24 } });
        // It goes over the wire.
        expect(Rebalanced.parse(JSON.parse(JSON.stringify(answer)))).toEqual(answer);
        const offers = [...answer.alternatives, ...(answer.giveOut ? [answer.giveOut] : [])];
        for (const offer of offers) {
          const table = tableOf(spec);
          expect(make(table, offer)).toEqual(offer.moves.map(() => null));
          const then = rebalance(planInput(table.board, table.now), { budget: { steps: 1 } });
          expect(then.now).toEqual(offer.worth);
          // Whoever is on a horse stays on it.
          const onIt = (board: Board) => Object.values(board.day.preps).map((prep) => prep.onIt);
          expect(onIt(table.board)).toEqual(onIt(asked.board));
        }
      }),
      { numRuns: 40 },
    );
  },
);

test('the plan in force is as late as the simple forecast says where nobody walks, waits or helps out', () => {
  // One person, so that the order is theirs alone; the simple forecast knows no walks and no moments.
  fc.assert(
    fc.property(fc.nat(10_000), (seed) => {
      const board = generateBarn({ horses: 3, people: 1, lessons: 1, seed, date: DATE });
      const input = planInput(board, START);
      const { learned } = input;
      const still = {
        ...input,
        works: input.works.map((work) => ({ ...work, metres: 0, notBefore: null })),
        workers: input.workers.map((worker) => ({ ...worker, busy: [], until: null })),
        learned: { ...learned, sameHorseMs: 0, otherHorseMs: 0, takeUpMs: {}, unseenStart: 0 },
      };
      const { now } = rebalance(still, { budget: { steps: 1 } });
      const spares = Object.values(simpleForecast(still).preps).map((prep) => prep.spareMs ?? Infinity);
      expect(Math.abs((now.latenessMs ?? 0) + Math.min(...spares))).toBeLessThan(1_000);
    }),
    { numRuns: 40 },
  );
});
