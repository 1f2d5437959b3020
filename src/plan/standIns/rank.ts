/**
 * What makes one option better than another. Levels are compared one after the other: places covered, places changed,
 * risk of not being ready, and only then everything else. Inside the last level the points below add up; they have no
 * source, only an order a coordinator would recognise: a horse nobody has approved weighs more than a change of tack,
 * and that more than a quarter of an hour of brushing.
 */
import type { Rules } from '../../barn/rules.ts';
import { MINUTE_MS } from '../../time/units.ts';
import type { Rank, Readiness } from './model.ts';

/** Points of the last level. Common practice, no source. */
export const POINTS = {
  /** No weight on record, though the instructor's list names the horse. */
  weightUnknown: 40,
  /** The rider has a list of approved horses and this one is not on it. */
  notOnApprovedList: 30,
  /** A finding somebody of the staff has read and not acted on. */
  findingRead: 25,
  otherTack: 20,
  loadCaution: 5,
  /** A minute of preparation the horse would not need otherwise; counted once a horse. */
  prepMinute: 1,
  /** Every ten minutes the horse is in lessons today as the day stands. */
  tenMinutesWorked: 1,
} as const;

/** Points of risk: squares, so that one horse in danger of being late is worse than two that are merely tight. */
const RISK = { safe: 0, fair: 1, tight: 4, poor: 9 } as const;
/** Risk of a horse outside the option that it makes late. */
export const RISK_MAKES_LATE = 9;
/** A chance this good is as good as certain; common practice, no source. */
const SAFE_CHANCE = 0.95;
/** Below this it is more likely late than not. */
const TIGHT_CHANCE = 0.5;

/** Points for a pairing's readiness. Without a chance the spare decides: twice the barn's tight minutes is safe. */
export function riskOf(
  { chance, spareMs }: Readiness,
  { certainty, tightMinutes }: Pick<Rules, 'certainty' | 'tightMinutes'>,
): number {
  if (chance !== null) {
    if (chance >= SAFE_CHANCE) return RISK.safe;
    return chance >= certainty ? RISK.fair : chance >= TIGHT_CHANCE ? RISK.tight : RISK.poor;
  }
  if (spareMs === null) return RISK.poor;
  const tightMs = tightMinutes * MINUTE_MS;
  return spareMs >= 2 * tightMs ? RISK.safe : spareMs >= tightMs ? RISK.fair : RISK.tight;
}

/**
 * The levels as one number, so that a sum of numbers is a sum level by level. Each step is more than the levels below
 * it can reach: soft points under 10⁶, risk under 10³, changes at most 30; the whole stays under 2⁵³.
 */
const STEP = { uncovered: 1e13, changed: 1e9, risk: 1e6 } as const;
export const ONE_CHANGE = STEP.changed;
export const ONE_UNCOVERED = STEP.uncovered;

export function costOf({ uncovered, changed, risk, soft }: Rank): number {
  return uncovered * STEP.uncovered + changed * STEP.changed + Math.min(risk, 999) * STEP.risk + soft;
}

/** Level by level: negative when `a` is better. */
export function compareRank(a: Rank, b: Rank): number {
  return a.uncovered - b.uncovered || a.changed - b.changed || a.risk - b.risk || a.soft - b.soft;
}
