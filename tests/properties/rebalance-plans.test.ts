/** What must hold of every answer to every barn; the checker beside shares nothing with the planner. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { PlanInput, Worker } from '#core/plan/model.ts';
import type { Move, Rebalanced } from '#core/plan/rebalance/model.ts';
import { rebalance } from '#core/plan/rebalance/rebalance.ts';
import { broken, playedForward } from '../unit/plan-rebalance/checker.ts';
import { barnSpecArb, inputOf, STAGE_MINUTES } from './rebalance-arbitraries.ts';

const RUNS = 60;
const SOME = { budget: { steps: 30 }, findingRate: 0.1 };

function moved(input: PlanInput, { pieces, to, before }: Move): PlanInput {
  const workers = input.workers.map((worker): Worker => {
    const rest = worker.queue.filter((id) => !pieces.includes(id));
    if (worker.id !== to) return { ...worker, queue: rest };
    const at = before === null ? -1 : rest.indexOf(before);
    return { ...worker, queue: rest.toSpliced(at < 0 ? rest.length : at, 0, ...pieces) };
  });
  return { ...input, workers };
}

const offersOf = (answer: Rebalanced) => [
  ...answer.alternatives,
  ...(answer.giveOut ? [answer.giveOut] : []),
];
const best = (answer: Rebalanced) => answer.alternatives.at(-1)?.worth ?? answer.now;

function worthOf(input: PlanInput): { undone: number; latenessMs: number | null } {
  const runs = playedForward(input, STAGE_MINUTES);
  const late = input.works.flatMap((work) => {
    const last = work.pieces.at(-1);
    return last ? [(runs.get(last.id)?.end ?? Infinity) - work.rampTime] : [];
  });
  const done = late.filter((one) => one < Infinity);
  return { undone: late.length - done.length, latenessMs: done.length > 0 ? Math.max(...done) : null };
}

function near(a: number | null, b: number | null): boolean {
  return a === b || (a !== null && b !== null && Math.abs(a - b) <= 1_000);
}

describe('every offer', () => {
  test('when its moves are made and the queues played forward, ends as predicted and breaks nothing', () => {
    let checked = 0;
    fc.assert(
      fc.property(barnSpecArb, (spec) => {
        const input = inputOf(spec);
        const answer = rebalance(input, SOME);
        for (const offer of offersOf(answer)) {
          checked += 1;
          const then = offer.moves.reduce(moved, input);
          const runs = playedForward(then, STAGE_MINUTES);
          expect(broken(then, runs)).toEqual([]);
          const worth = worthOf(then);
          expect(worth.undone).toBe(offer.worth.undone);
          expect(near(worth.latenessMs, offer.worth.latenessMs)).toBe(true);
          for (const { lesson, after } of offer.lessons) {
            const work = then.works.find((one) => `lesson-${one.horse}` === lesson);
            const end = runs.get(work?.pieces.at(-1)?.id ?? '')?.end ?? null;
            expect(near(end, after.at)).toBe(true);
          }
        }
      }),
      { numRuns: RUNS },
    );
    expect(checked).toBeGreaterThan(RUNS / 4);
  });

  test('sends nobody to work they are not cleared for, and moves nothing twice', () => {
    fc.assert(
      fc.property(barnSpecArb, (spec) => {
        const input = inputOf(spec);
        for (const { moves } of offersOf(rebalance(input, SOME))) {
          for (const { pieces, to, horse, from } of moves) {
            const worker = input.workers.find((one) => one.id === to);
            for (const id of pieces) {
              const piece = input.works.flatMap((work) => work.pieces).find((one) => one.id === id);
              expect(piece?.horse).toBe(horse);
              expect(piece?.asks.every((one) => worker?.clearances.includes(one))).toBe(true);
            }
            expect(from === null || input.workers.some((one) => one.id === from)).toBe(true);
          }
        }
      }),
      { numRuns: RUNS },
    );
  });

  test('is better than what is, and than every offer with fewer moves, by a minute', () => {
    fc.assert(
      fc.property(barnSpecArb, (spec) => {
        const answer = rebalance(inputOf(spec), SOME);
        let last = answer.now;
        for (const { worth } of answer.alternatives) {
          const gains =
            worth.undone < last.undone ||
            (last.latenessMs ?? 0) - (worth.latenessMs ?? 0) >= 59_999 ||
            last.tardinessMs - worth.tardinessMs >= 59_999;
          expect(gains && worth.undone <= last.undone).toBe(true);
          last = worth;
        }
        expect(answer.alternatives.map(({ moves }) => moves.length > 0)).not.toContain(false);
      }),
      { numRuns: RUNS },
    );
  });
});

describe('the bound', () => {
  test('lies under every plan found, and a further person never lifts it above one', () => {
    fc.assert(
      fc.property(barnSpecArb, fc.constantFrom('p0', 'p1', 'p2', 'p3'), (spec, like) => {
        const answer = rebalance(inputOf(spec), SOME);
        const found = [answer.now, ...answer.alternatives.map(({ worth }) => worth)].filter(
          (worth) => worth.undone <= answer.cannot.length,
        );
        for (const worth of found) {
          if (answer.boundMs !== null && worth.latenessMs !== null) {
            expect(answer.boundMs).toBeLessThanOrEqual(worth.latenessMs + 1_000);
          }
        }
        const twin = spec.people.find((person) => person.id === like) ?? spec.people[0];
        const more = rebalance(
          inputOf({ ...spec, people: [...spec.people, { ...twin, id: 'more', queue: [] }] }),
          SOME,
        );
        // Whoever may do nothing new unblocks no horse, so both are about the same work.
        const least = Math.min(...found.map((worth) => worth.latenessMs ?? Infinity));
        if (more.boundMs !== null && more.cannot.length === answer.cannot.length) {
          expect(more.boundMs).toBeLessThanOrEqual(least + 1_000);
        }
      }),
      { numRuns: RUNS },
    );
  });

  test('proven plans: nobody finds a better one with another seed', () => {
    fc.assert(
      fc.property(barnSpecArb, fc.integer(), (spec, seed) => {
        const answer = rebalance(inputOf(spec), SOME);
        const other = rebalance(inputOf(spec), { ...SOME, seed });
        const proven = [{ worth: answer.now, proven: answer.proven }, ...answer.alternatives].filter(
          (one) => one.proven,
        );
        for (const { worth } of proven) {
          const late = Math.max(worth.latenessMs ?? -Infinity, -5 * 60_000);
          const found = Math.max(best(other).latenessMs ?? -Infinity, -5 * 60_000);
          if (best(other).undone <= worth.undone) expect(found).toBeGreaterThan(late - 61_000);
        }
      }),
      { numRuns: RUNS },
    );
  });
});

describe('names and clocks', () => {
  test('other names for people change nothing but the names', () => {
    const renamed = (name: string): string => name.replace(/^p(\d)$/, 'z$1y');
    fc.assert(
      fc.property(barnSpecArb, (spec) => {
        const input = inputOf(spec);
        const other = {
          ...input,
          workers: input.workers.map((worker) => ({ ...worker, id: renamed(worker.id) })),
        };
        const text = JSON.stringify(rebalance(input, SOME)).replaceAll(/"p(\d)"/g, '"z$1y"');
        expect(JSON.stringify(rebalance(other, SOME))).toBe(text);
      }),
      { numRuns: RUNS / 2 },
    );
  });

  test('other times shift the answer by as much', () => {
    fc.assert(
      fc.property(barnSpecArb, fc.integer({ min: -1_000_000, max: 1_000_000 }), (spec, seconds) => {
        const by = seconds * 1_000;
        const input = inputOf(spec);
        const shifted = JSON.parse(JSON.stringify(input), (_, value: unknown) =>
          typeof value === 'number' && value > 1_000_000_000_000 ? value + by : value,
        ) as PlanInput;
        const answer = JSON.parse(JSON.stringify(rebalance(shifted, SOME)), (_, value: unknown) =>
          typeof value === 'number' && value > 1_000_000_000_000 ? value - by : value,
        ) as Rebalanced;
        expect(answer).toEqual(rebalance(input, SOME));
      }),
      { numRuns: RUNS / 2 },
    );
  });

  test('the input stays as it was', () => {
    fc.assert(
      fc.property(barnSpecArb, (spec) => {
        const input = inputOf(spec);
        const before = JSON.stringify(input);
        rebalance(input, { budget: { steps: 5 } });
        expect(JSON.stringify(input)).toBe(before);
      }),
      { numRuns: 10 },
    );
  });
});
