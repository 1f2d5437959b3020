/** What is believed of a stage's length before this barn has a history. */
import { STAGES, type Stage } from '../../barn/stage.ts';

/** Belief about one stage; log minutes. All above zero. */
export type StagePrior = {
  /** Minutes a typical stage takes: as often longer as shorter. */
  readonly typicalMinutes: number;
  /** How many stages seen the typical minutes are worth. */
  readonly worthOfTypical: number;
  /** Spread of one person on one horse from day to day, as a standard deviation of log minutes: 0.3 is ×/÷ 1.35. */
  readonly spread: number;
  /** Degrees of freedom on the first day: the spread is worth as many stages seen. */
  readonly spreadDf: number;
  /** A horse's own effect is worth this many stages of evidence; large: all horses alike. */
  readonly horseShrink: number;
  /** A person's own effect is worth this many stages of evidence; large: all people alike. */
  readonly personShrink: number;
};

export type DurationPrior = Readonly<Record<Stage, StagePrior>>;

/**
 * Typical minutes as published, where the barn has not set its own. Groom for class 15 min (Mitey Riders, "From Mount
 * to Dismount", grade B), of it 4 for the feet (3–5, from memory, weak), so 11 for the coat; tack 5 min for an expert
 * to 15 for a beginner (general web, grade C), the geometric middle rounded to 9.
 */
export const PUBLISHED_MINUTES: Readonly<Record<Stage, number>> = { feet: 4, coat: 11, tack: 9 };

/**
 * Prior from the barn's own typical minutes. Spread and worths have no source: they put eight in ten first-day stages
 * between half and twice the typical minutes (5.7 to 21 for a coat, which holds the 8 to 20 that pages give), and let
 * a person's pace differ more than a horse's.
 */
export function priorFrom(
  typicalMinutes: Readonly<Record<Stage, number>> = PUBLISHED_MINUTES,
): DurationPrior {
  const stage = (minutes: number): StagePrior => ({
    typicalMinutes: minutes,
    worthOfTypical: 2,
    spread: 0.3,
    spreadDf: 6,
    horseShrink: 6,
    personShrink: 1.5,
  });
  const [feet, coat, tack] = STAGES;
  return {
    feet: stage(typicalMinutes[feet]),
    coat: stage(typicalMinutes[coat]),
    tack: stage(typicalMinutes[tack]),
  };
}
