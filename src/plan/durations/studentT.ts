/**
 * Student's t distribution for any number of degrees of freedom above zero.
 *
 * The cumulative distribution is a regularised incomplete beta function, by its continued fraction (NIST DLMF 8.17.22,
 * evaluated by Lentz's method) and the Lanczos approximation of log gamma. Absolute error below 1e-12 for 0.5 to 10,000
 * degrees of freedom.
 */

const CONVERGED = 1e-15;
const TINY = 1e-300;
const MAX_TERMS = 10_000;

/** P(T <= t). NaN for a NaN or for `df` not above 0. */
export function studentTCdf(t: number, df: number): number {
  if (Number.isNaN(t) || !(df > 0)) return Number.NaN;
  const upper = upperTail(Math.abs(t), df);
  return t > 0 ? 1 - upper : upper;
}

/** P(T > t), without losing small tails to rounding. NaN for a NaN or for `df` not above 0. */
export function studentTSurvival(t: number, df: number): number {
  return studentTCdf(-t, df);
}

/**
 * The t with P(T <= t) = p. ±Infinity at p = 1 and 0; NaN outside [0, 1] or for `df` not above 0.
 * Newton's steps on the tail, kept inside a bracket that only ever shrinks.
 */
export function studentTQuantile(p: number, df: number): number {
  if (!(df > 0) || !(p >= 0 && p <= 1)) return Number.NaN;
  if (p === 0.5) return 0;
  const tail = Math.min(p, 1 - p);
  const sign = p < 0.5 ? -1 : 1;
  if (tail === 0) return sign * Number.POSITIVE_INFINITY;

  let low = 0;
  let high = 1;
  while (upperTail(high, df) > tail) {
    low = high;
    high *= 2;
    if (high === Number.POSITIVE_INFINITY) return sign * high;
  }
  let t = (low + high) / 2;
  for (let step = 0; step < 200; step += 1) {
    const excess = upperTail(t, df) - tail;
    if (excess > 0) low = t;
    else high = t;
    const newton = t + excess / density(t, df);
    const next = newton > low && newton < high ? newton : (low + high) / 2;
    if (Math.abs(next - t) <= 1e-14 * Math.max(1, t)) return sign * next;
    t = next;
  }
  return sign * t;
}

function density(t: number, df: number): number {
  const logScale = logGamma((df + 1) / 2) - logGamma(df / 2) - 0.5 * Math.log(df * Math.PI);
  return Math.exp(logScale - ((df + 1) / 2) * Math.log1p((t * t) / df));
}

/** P(T > t) for t >= 0. */
function upperTail(t: number, df: number): number {
  if (t === Number.POSITIVE_INFINITY) return 0;
  const square = t * t;
  return 0.5 * incompleteBeta(df / (df + square), square / (df + square), df / 2, 0.5);
}

/** Regularised I_x(a, b), with y = 1 - x given so that neither end loses digits. */
function incompleteBeta(x: number, y: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (y <= 0) return 1;
  const logFront = a * Math.log(x) + b * Math.log(y) - (logGamma(a) + logGamma(b) - logGamma(a + b));
  const front = Math.exp(logFront);
  // The fraction converges fast only below the mean; above it, the complement does.
  return x < (a + 1) / (a + b + 2)
    ? (front * betaFraction(x, a, b)) / a
    : 1 - (front * betaFraction(y, b, a)) / b;
}

function betaFraction(x: number, a: number, b: number): number {
  let c = 1;
  let d = 1 / nonZero(1 - ((a + b) * x) / (a + 1));
  let value = d;
  for (let m = 1; m <= MAX_TERMS; m += 1) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / nonZero(1 + even * d);
    c = nonZero(1 + even / c);
    value *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / nonZero(1 + odd * d);
    c = nonZero(1 + odd / c);
    const change = d * c;
    value *= change;
    if (Math.abs(change - 1) < CONVERGED) break;
  }
  return value;
}

function nonZero(value: number): number {
  return Math.abs(value) < TINY ? TINY : value;
}

/** Lanczos, g = 7, nine terms; relative error about 1e-15 for x > 0. */
const LANCZOS = [
  0.999_999_999_999_809_93, 676.520_368_121_885_1, -1259.139_216_722_402_8, 771.323_428_777_653_13,
  -176.615_029_162_140_59, 12.507_343_278_686_905, -0.138_571_095_265_720_12, 9.984_369_578_019_571_6e-6,
  1.505_632_735_149_311_6e-7,
] as const;

function logGamma(x: number): number {
  if (x < 0.5) return Math.log(Math.PI / Math.sin(Math.PI * x)) - logGamma(1 - x);
  const z = x - 1;
  const base = z + 7.5;
  let sum: number = LANCZOS[0];
  for (let i = 1; i < LANCZOS.length; i += 1) sum += (LANCZOS[i] ?? 0) / (z + i);
  return 0.5 * Math.log(2 * Math.PI) + (z + 0.5) * Math.log(base) - base + Math.log(sum);
}
