/** Scores of probability forecasts. */

export type Verified = {
  /** Forecast chance of the event, and whether it came. */
  readonly chance: number;
  readonly came: boolean;
};

/**
 * Half of the score P of Brier, Verification of forecasts expressed in terms of probability, Monthly Weather Review 78
 * (1950), for two classes: mean of (chance − outcome)². 0 is perfect, 1 always wrong.
 */
export function brierScore(forecasts: readonly Verified[]): number {
  return mean(forecasts.map(({ chance, came }) => (chance - (came ? 1 : 0)) ** 2));
}

/** The score of somebody who knows how often the event comes and says that every time. */
export function baseRateScore(forecasts: readonly Verified[]): number {
  const rate = mean(forecasts.map(({ came }) => (came ? 1 : 0)));
  return rate * (1 - rate);
}

export type ReliabilityRow = {
  readonly from: number;
  readonly forecasts: number;
  readonly meanChance: number;
  readonly rate: number;
};

/** Per tenth of chance: how often it was said, and how often the event came. Empty tenths are left out. */
export function reliability(forecasts: readonly Verified[]): ReliabilityRow[] {
  return Array.from({ length: 10 }, (_, i) => {
    const some = forecasts.filter(({ chance }) => Math.min(9, Math.floor(chance * 10)) === i);
    return {
      from: i / 10,
      forecasts: some.length,
      meanChance: mean(some.map(({ chance }) => chance)),
      rate: mean(some.map(({ came }) => (came ? 1 : 0))),
    };
  }).filter((row) => row.forecasts > 0);
}

/**
 * Murphy's parting of the score (A new vector partition of the probability score, J. Appl. Meteorology 12, 1973):
 * reliability, the mean squared distance between what was said and how often it came, weighted by how often it was said.
 */
export function reliabilityTerm(rows: readonly ReliabilityRow[]): number {
  const all = rows.reduce((sum, row) => sum + row.forecasts, 0);
  return rows.reduce((sum, row) => sum + row.forecasts * (row.meanChance - row.rate) ** 2, 0) / all;
}

export function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
