/**
 * How long a stage takes this person on this horse, learned from the barn's own history.
 *
 * Log minutes = barn's mean + horse's effect + person's effect + chance, for each stage by itself, with
 *   chance ~ Normal(0, σ²), mean ~ Normal(log typical, σ²/worth), horse ~ Normal(0, σ²/horseShrink),
 *   person ~ Normal(0, σ²/personShrink), σ² ~ InverseGamma(df/2, df/2 · spread²).
 * Every part is scaled by the one σ², so the whole is a conjugate linear model and its posterior is exact, with no
 * iteration: precision P = P₀ + XᵀX, mean = log typical on the first part + P⁻¹ Xᵀ(y − log typical),
 * a = a₀ + n/2, b = b₀ + (Σ(y − log typical)² − δᵀPδ)/2 with δ the shift of the mean. A horse or person with n stages
 * keeps about n/(n + shrink) of its own difference and is drawn to the barn's mean by the rest, as in Bühlmann's
 * credibility. With all horses and people alike it is the plain normal–inverse-gamma update.
 * Source: textbook conjugate linear regression and partial pooling (Gelman et al., Bayesian Data Analysis), from
 * memory.
 */
import { STAGES, type Stage } from '../../barn/stage.ts';
import { invertPositiveDefinite } from './cholesky.ts';
import { isBelievable, type Observation } from './observation.ts';
import type { DurationPrior, StagePrior } from './prior.ts';

/**
 * An observation further than this factor from the stage's middle counts as just this far. The middle is the median of
 * all log minutes and of a few copies of the typical minutes, so that a single absurd value cannot move it.
 * No source: by the first day's belief about one stage in twenty lies beyond, once people are known hardly any.
 */
export const FURTHEST_FACTOR = 3;
const COPIES_OF_TYPICAL = 5;

type StageModel = {
  /** Observations used. */
  readonly count: number;
  /** Those pulled in to the furthest factor. */
  readonly pulledIn: number;
  /** log minutes */
  readonly mean: number;
  readonly horses: readonly string[];
  readonly people: readonly string[];
  /** Effects on log minutes: horses in order, then people. */
  readonly effects: readonly number[];
  /** Covariance over σ² of mean, horses, people; rows of the lower triangle. */
  readonly covariance: readonly (readonly number[])[];
  readonly a: number;
  readonly b: number;
};

/** Plain data: survives JSON. */
export type DurationModel = {
  readonly prior: DurationPrior;
  readonly stages: Readonly<Record<Stage, StageModel>>;
};

/**
 * Learns from all observations at once. The order does not matter. Observations that cannot be (not between 15 s and
 * 2 h) are passed over. With none, the model is the prior.
 */
export function learn(prior: DurationPrior, observations: readonly Observation[]): DurationModel {
  const ofStage = (stage: Stage): StageModel =>
    learnStage(
      prior[stage],
      observations.filter((each) => each.stage === stage && isBelievable(each.minutes)),
    );
  const [feet, coat, tack] = STAGES;
  return { prior, stages: { feet: ofStage(feet), coat: ofStage(coat), tack: ofStage(tack) } };
}

function learnStage(prior: StagePrior, observations: readonly Observation[]): StageModel {
  const horses = [...new Set(observations.map((each) => each.horse))].sort();
  const people = [...new Set(observations.map((each) => each.person))].sort();
  const horseAt = new Map(horses.map((id, i) => [id, 1 + i]));
  const personAt = new Map(people.map((id, i) => [id, 1 + horses.length + i]));
  const size = 1 + horses.length + people.length;

  const typical = Math.log(prior.typicalMinutes);
  const logs = observations.map((each) => Math.log(each.minutes));
  const used = pullIn(logs, typical);

  const precision = Array.from({ length: size }, () => zeros(size));
  const add = (i: number, j: number, by: number): void => {
    const row = precision[i];
    if (row) row[j] = (row[j] ?? 0) + by;
  };
  add(0, 0, prior.worthOfTypical);
  for (const i of horseAt.values()) add(i, i, prior.horseShrink);
  for (const i of personAt.values()) add(i, i, prior.personShrink);

  const pull = zeros(size);
  let squares = 0;
  observations.forEach((each, index) => {
    const off = (used[index] ?? typical) - typical;
    const parts = [0, horseAt.get(each.horse) ?? 0, personAt.get(each.person) ?? 0];
    for (const i of parts) {
      pull[i] = (pull[i] ?? 0) + off;
      for (const j of parts) add(i, j, 1);
    }
    squares += off * off;
  });

  const covariance = invertPositiveDefinite(precision);
  const shift = covariance.map((row) => dot(row, pull));
  const a0 = prior.spreadDf / 2;
  return {
    count: observations.length,
    pulledIn: used.filter((value, i) => value !== logs[i]).length,
    mean: typical + (shift[0] ?? 0),
    horses,
    people,
    effects: shift.slice(1),
    covariance: covariance.map((row, i) => row.slice(0, i + 1)),
    a: a0 + observations.length / 2,
    // shiftᵀ P shift = shiftᵀ pull, since shift = P⁻¹ pull
    b: a0 * prior.spread ** 2 + Math.max(0, squares - dot(shift, pull)) / 2,
  };
}

/** Log minutes, none further from the middle than the furthest factor. */
function pullIn(logs: readonly number[], typical: number): number[] {
  const sorted = [...logs, ...zeros(COPIES_OF_TYPICAL).map(() => typical)].sort((a, b) => a - b);
  const half = Math.floor(sorted.length / 2);
  const upper = sorted[half] ?? typical;
  const middle = sorted.length % 2 === 1 ? upper : (upper + (sorted[half - 1] ?? upper)) / 2;
  const furthest = Math.log(FURTHEST_FACTOR);
  return logs.map((value) => Math.min(middle + furthest, Math.max(middle - furthest, value)));
}

function zeros(length: number): number[] {
  return Array.from({ length }, () => 0);
}

function dot(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, value, i) => sum + value * (b[i] ?? 0), 0);
}
