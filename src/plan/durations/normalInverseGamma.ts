/**
 * Normal data with unknown mean and variance under the conjugate prior, a normal–inverse-gamma distribution:
 * σ² ~ InverseGamma(a, b), mean | σ² ~ Normal(m, σ²/k).
 *
 * Update with n data of mean x̄ and sum of squares about it S:
 *   k' = k + n,  m' = (k m + n x̄) / k',  a' = a + n/2,  b' = b + S/2 + k n (x̄ − m)² / (2 k').
 * The next datum is Student's t with 2a degrees of freedom, location m, scale² = b (k + 1) / (a k).
 * Source: textbook Bayesian analysis (for example Gelman et al., Bayesian Data Analysis, ch. 3), from memory.
 */
import * as z from 'zod/mini';

const AboveZero = z.number().check(z.gt(0));

export const NormalInverseGamma = z.object({ m: z.number(), k: AboveZero, a: AboveZero, b: AboveZero });
export type NormalInverseGamma = z.infer<typeof NormalInverseGamma>;

/** A Student's t distribution on some scale. */
export interface StudentT {
  readonly location: number;
  readonly scale: number;
  /** Degrees of freedom. */
  readonly df: number;
}

/** Belief after one datum. The datum must be finite. */
export function updateOne({ m, k, a, b }: NormalInverseGamma, x: number): NormalInverseGamma {
  const off = x - m;
  return { m: m + off / (k + 1), k: k + 1, a: a + 0.5, b: b + (k * off * off) / (2 * (k + 1)) };
}

/** Belief after several data at once; the same, to rounding, as one after the other in any order. */
export function updateBatch(prior: NormalInverseGamma, data: readonly number[]): NormalInverseGamma {
  const n = data.length;
  if (n === 0) return prior;
  const { m, k, a, b } = prior;
  const mean = data.reduce((sum, x) => sum + x, 0) / n;
  const squares = data.reduce((sum, x) => sum + (x - mean) ** 2, 0);
  const off = mean - m;
  return {
    m: m + (n * off) / (k + n),
    k: k + n,
    a: a + n / 2,
    b: b + squares / 2 + (k * n * off * off) / (2 * (k + n)),
  };
}

/** What is believed of the next datum. */
export function predictNext({ m, k, a, b }: NormalInverseGamma): StudentT {
  return { location: m, scale: Math.sqrt((b * (k + 1)) / (a * k)), df: 2 * a };
}

/** What is believed of the mean itself. */
export function predictMean({ m, k, a, b }: NormalInverseGamma): StudentT {
  return { location: m, scale: Math.sqrt(b / (a * k)), df: 2 * a };
}

/** E[σ²]; infinite while `a` is not above 1. */
export function expectedVariance({ a, b }: NormalInverseGamma): number {
  return a > 1 ? b / (a - 1) : Number.POSITIVE_INFINITY;
}
