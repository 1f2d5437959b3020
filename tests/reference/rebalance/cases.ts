/** Random small barns with clearances, hours and lesson duties, at most 12 stages: the same for the same number. */
import { STAGES, type Clearance } from '#core/barn/stage.ts';
import type { PlanInput } from '#core/plan/model.ts';
import { seededRandom } from '#core/plan/search/random.ts';
import { barn, type HorseSpec, type PersonSpec } from '../../unit/plan-rebalance/barn.ts';

/** Minutes that stay whole at every pace. */
const LENGTHS = [4, 8, 12, 16] as const;
const PACES = [0.75, 1, 1.25, 1.5] as const;

export function smallBarn(index: number): PlanInput {
  const random = seededRandom(11_000 + index);
  const between = (low: number, high: number): number => low + random.below(high - low + 1);
  const pick = <T>(items: readonly T[]): T => items[random.below(items.length)]!;
  const horses = Array.from({ length: between(2, 4) }, (_, i): HorseSpec => {
    const open = STAGES.slice(random.below(4) === 0 ? between(1, 2) : 0);
    return {
      id: `h${i}`,
      ramp: between(15, 70),
      open,
      feetBy: false,
      ...(random.below(4) === 0 ? { freeFrom: between(1, 25) } : {}),
      ...(random.below(4) === 0 ? { notBefore: between(1, 15) } : {}),
    };
  });
  const people = Array.from({ length: between(2, 3) }, (_, i): PersonSpec => {
    const duty = between(5, 60);
    return {
      id: `p${i}`,
      // The first may do everything, so that everything can be done.
      clearances: STAGES.filter((): boolean => i === 0 || random.below(10) < 7) satisfies Clearance[],
      pace: pick(PACES),
      ...(i > 0 && random.below(3) === 0 ? { from: between(1, 20) } : {}),
      ...(i > 0 && random.below(3) === 0 ? { until: between(30, 80) } : {}),
      busy: random.below(2) === 0 ? [{ from: duty, until: duty + between(10, 40) }] : [],
      queue: horses.filter((_horse, h) => h % 3 === i).map((horse) => horse.id),
    };
  });
  return barn(horses, people, { feet: pick(LENGTHS), coat: pick(LENGTHS), tack: pick(LENGTHS) });
}
