/** From what was learned to minutes: quantiles, chances and draws, also for a stage under way. */
import type { Stage } from '../../barn/stage.ts';
import type { DurationModel } from './learn.ts';
import type { StudentT } from './normalInverseGamma.ts';
import { studentTCdf, studentTQuantile, studentTSurvival } from './studentT.ts';

/**
 * Belief about one stage: the log of its minutes is Student's t. Its mean in minutes is infinite, as of every log-t,
 * so plan with quantiles.
 */
export type Prediction = StudentT;

/**
 * What is believed of this person doing this stage on this horse. Somebody or some horse without history, or nobody
 * named yet (null), is taken from the whole barn's, with the wider spread that belongs to not knowing.
 */
export function predict(
  model: DurationModel,
  of: { readonly stage: Stage; readonly horse: string | null; readonly person: string | null },
): Prediction {
  const stage = model.stages[of.stage];
  const prior = model.prior[of.stage];
  const horse = of.horse === null ? -1 : stage.horses.indexOf(of.horse);
  const person = of.person === null ? -1 : stage.people.indexOf(of.person);
  const known = [
    0,
    ...(horse < 0 ? [] : [1 + horse]),
    ...(person < 0 ? [] : [1 + stage.horses.length + person]),
  ];
  let location = stage.mean;
  let spread = 1 + (horse < 0 ? 1 / prior.horseShrink : 0) + (person < 0 ? 1 / prior.personShrink : 0);
  for (const i of known) {
    if (i > 0) location += stage.effects[i - 1] ?? 0;
    for (const j of known) spread += stage.covariance[Math.max(i, j)]?.[Math.min(i, j)] ?? 0;
  }
  return { location, scale: Math.sqrt((stage.b / stage.a) * spread), df: 2 * stage.a };
}

/** Minutes by which the stage is done with chance `p`; p within (0, 1), else 0, Infinity or NaN. */
export function minutesAt(prediction: Prediction, p: number): number {
  return Math.exp(prediction.location + prediction.scale * studentTQuantile(p, prediction.df));
}

/** Chance that the stage takes longer than this many minutes; 1 for 0 and less. */
export function chanceLonger(prediction: Prediction, minutes: number): number {
  return minutes > 0 ? studentTSurvival(standard(prediction, minutes), prediction.df) : 1;
}

/** Chance that the stage is done within this many minutes; 0 for 0 and less. */
export function chanceWithin(prediction: Prediction, minutes: number): number {
  return minutes > 0 ? studentTCdf(standard(prediction, minutes), prediction.df) : 0;
}

/**
 * For a stage that has gone on for `elapsed` minutes without an end: total minutes by which it is done with chance `p`.
 * Never less than `elapsed`. What has gone on for long will, under these tails, go on for longer still.
 */
export function minutesAtGiven(prediction: Prediction, elapsed: number, p: number): number {
  if (!(elapsed > 0)) return minutesAt(prediction, p);
  const left = (1 - p) * chanceLonger(prediction, elapsed);
  const t = -studentTQuantile(left, prediction.df);
  return Math.max(elapsed, Math.exp(prediction.location + prediction.scale * t));
}

/** A draw of the total minutes from `u`, uniform within (0, 1), for a stage that has gone on for `elapsed` minutes. */
export function sampleMinutes(prediction: Prediction, u: number, elapsed = 0): number {
  return minutesAtGiven(prediction, elapsed, u);
}

function standard(prediction: Prediction, minutes: number): number {
  return (Math.log(minutes) - prediction.location) / prediction.scale;
}
