/**
 * The work after lessons, on any board that can be tapped together: it is planned around preparing and never before it.
 * A check of its own: nothing here asks the planner's code whether its plan holds.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { isAfterStage, isCleared } from '#core/barn/stage.ts';
import { pieceParts } from '#core/day/pieces.ts';
import { forecast } from '#core/plan/forecast.ts';
import { planInput } from '#core/plan/input.ts';
import type { AfterForecast, PlanInput } from '#core/plan/model.ts';
import { rebalance } from '#core/plan/rebalance/rebalance.ts';
import { simpleForecast } from '#core/plan/simpleForecast.ts';
import { moment } from './moment.ts';

const FEW = { draws: 16 };
const input = moment.map(({ board, now }) => planInput(board, now));

/** The same barn with nothing to do after a lesson, and nothing of it in anybody's queue. */
function without(full: PlanInput): PlanInput {
  const isPreparing = (piece: string): boolean => {
    const parts = pieceParts(piece);
    return parts === null || !isAfterStage(parts.stage);
  };
  return {
    ...full,
    afterWorks: [],
    workers: full.workers.map((worker) => ({ ...worker, queue: worker.queue.filter(isPreparing) })),
  };
}

type Stretch = { readonly who: string; readonly from: number; readonly until: number };

function stretches(after: Record<string, AfterForecast>, key: 'by' | 'horse', full: PlanInput): Stretch[] {
  return full.afterWorks.flatMap((work) =>
    (after[work.prep]?.pieces ?? []).flatMap(({ by, start, end }) =>
      by === null || start === null || end === null
        ? []
        : { who: key === 'by' ? by : work.horse, from: start, until: end },
    ),
  );
}

function overlap(all: readonly Stretch[]): Stretch | undefined {
  return all.find((a, i) =>
    all.some((b, j) => i < j && a.who === b.who && a.from < b.until - 1 && b.from < a.until - 1),
  );
}

describe('work after lessons', () => {
  test('makes no preparation later, nobody behind, no lesson less sure, and no other move the best', () => {
    fc.assert(
      fc.property(input, (full) => {
        const [planned, bare] = [forecast(full, FEW), forecast(without(full), FEW)];
        expect(planned.preps).toEqual(bare.preps);
        expect(planned.lessons).toEqual(bare.lessons);
        for (const [id, hands] of Object.entries(planned.hands)) {
          const { doneAt: _with, ...rest } = hands;
          expect(bare.hands[id]).toMatchObject(rest);
        }
        expect(simpleForecast(full).preps).toEqual(simpleForecast(without(full)).preps);
      }),
    );
  });

  test('changes nothing in what the board proposes to move', () => {
    fc.assert(
      fc.property(input, (full) => {
        const budget = { budget: { steps: 3 } };
        expect(rebalance(full, budget)).toEqual(rebalance(without(full), budget));
      }),
      { numRuns: 20 },
    );
  });

  test('is given only to people who are cleared, here and free of preparing and lessons, in order', () => {
    fc.assert(
      fc.property(input, (full) => {
        const plan = simpleForecast(full);
        for (const work of full.afterWorks) {
          let clock = work.from;
          for (const piece of plan.after[work.prep]?.pieces ?? []) {
            const asked = work.pieces.find(({ id }) => id === piece.id);
            if (piece.start === null || piece.end === null || !asked || asked.underWay) continue;
            const worker = full.workers.find(({ id }) => id === piece.by);
            expect(worker && isCleared(worker.clearances, asked.asks)).toBe(true);
            if (!worker) continue;
            expect(piece.start).toBeGreaterThanOrEqual(Math.max(clock, worker.from) - 1);
            // Who was given the horse stays for it when nobody else is there.
            if (!piece.given) expect(piece.end).toBeLessThanOrEqual((worker.until ?? Infinity) + 1);
            clock = piece.end;
          }
        }
        const preparing = Object.values(plan.preps).flatMap(({ prep, pieces }) =>
          pieces.flatMap(({ by, start, end }) =>
            by === null || start === null || end === null ? [] : { prep, by, from: start, until: end },
          ),
        );
        const afterwards = stretches(plan.after, 'by', full);
        expect(overlap(afterwards)).toBeUndefined();
        expect(overlap(stretches(plan.after, 'horse', full))).toBeUndefined();
        // What somebody is on stands among what keeps them busy.
        const onNow = full.afterWorks.flatMap(({ pieces }) =>
          pieces.flatMap(({ underWay }) => underWay?.since ?? []),
        );
        for (const one of afterwards.filter(({ from }) => !onNow.includes(from))) {
          const clash = [
            ...preparing.filter(({ by }) => by === one.who),
            ...(full.workers.find(({ id }) => id === one.who)?.busy ?? []),
          ].find(({ from, until }) => from < one.until - 1 && one.from < until - 1);
          expect(clash).toBeUndefined();
        }
      }),
    );
  });
});
