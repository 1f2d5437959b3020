/** How often a feet check finds something that takes the horse off the lesson. */

/**
 * Belief before this barn has counted: one check in fifty, worth fifty checks. No source: published figures are of
 * horses a year and of shoes a farrier's visit, none of checks before a lesson.
 */
const PRIOR_FINDINGS = 1;
const PRIOR_CHECKS = 50;

/**
 * Posterior mean of the chance that a check finds something, in (0, 1), from the barn's own counts: Beta prior,
 * binomial checks (Gelman et al., Bayesian Data Analysis, 3rd ed., section 2.4). Counts that cannot be (negative, not
 * finite, more findings than checks) are taken as the nearest that can.
 */
export function findingRate(findingsCount: number, checksCount: number): number {
  const checks = atLeastZero(checksCount);
  const findings = Math.min(checks, atLeastZero(findingsCount));
  return (PRIOR_FINDINGS + findings) / (PRIOR_CHECKS + checks);
}

function atLeastZero(count: number): number {
  return Number.isFinite(count) && count > 0 ? count : 0;
}
