/** Chance for the simulated afternoon: every draw comes from a seed, so that a day can be repeated exactly. */
import { seededRandom } from '#core/plan/search/random.ts';

export type Chance = {
  /** In [0, 1). */
  unit(): number;
  /** In [low, high). */
  between(low: number, high: number): number;
  /** True with this probability. */
  happens(probability: number): boolean;
  /** One of the items; undefined when there are none. */
  pick<T>(items: readonly T[]): T | undefined;
  /** Gamma distributed with this shape (1 or more) and mean. */
  gamma(shape: number, mean: number): number;
};

const STEPS = 2 ** 31;

/** The stream of draws that belongs to `seed`. */
export function chance(seed: number): Chance {
  const random = seededRandom(seed);
  const unit = (): number => random.below(STEPS) / STEPS;
  return {
    unit,
    between: (low, high) => low + (high - low) * unit(),
    happens: (probability) => unit() < probability,
    pick: (items) => items[random.below(Math.max(1, items.length))],
    gamma: (shape, mean) => (mean * standardGamma(shape, unit)) / shape,
  };
}

/** A seed of its own for one name, so that one person's draws do not shift another's. FNV-1a, 32 bits. */
export function seedFor(seed: number, name: string): number {
  let hash = 0x811c9dc5;
  for (const letter of `${seed}/${name}`) {
    hash = Math.imul(hash ^ (letter.codePointAt(0) ?? 0), 0x01000193);
  }
  return hash >>> 0;
}

/** The same items in an order drawn by chance. */
export function shuffled<T>(items: readonly T[], luck: Chance): T[] {
  return items
    .map((item) => ({ item, rank: luck.unit() }))
    .sort((a, b) => a.rank - b.rank)
    .map(({ item }) => item);
}

/** Gamma with scale 1: Marsaglia and Tsang, A Simple Method for Generating Gamma Variables, ACM TOMS 26 (2000). */
function standardGamma(shape: number, unit: () => number): number {
  const d = shape - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const x = standardNormal(unit);
    const v = (1 + c * x) ** 3;
    if (v > 0 && Math.log(1 - unit()) < 0.5 * x * x + d - d * v + d * Math.log(v)) return d * v;
  }
}

/** Box and Muller's transform. */
function standardNormal(unit: () => number): number {
  return Math.sqrt(-2 * Math.log(1 - unit())) * Math.cos(2 * Math.PI * unit());
}
