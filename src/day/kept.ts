/** How much of each kind a board carries. */

/** How many ops back an undo can reach. A board's undo button is there for 10 s; this leaves room for a slow radio. */
export const RECENT_OPS = 40;

/** How many taps for one stage of one prep are kept: the earliest. One counts, the others wait for its undo. */
export const KEPT_MARKS = 6;

/** How many kept notes a day carries; the journal has them all. */
export const KEPT_NOTES = 60;

/** How many taps a lesson keeps of each kind, and a tack list for each of its items. */
export const KEPT_RIDE_MARKS = 12;
export const KEPT_TICKS = 4;

/** How many calls for help a day carries: the latest. */
export const KEPT_CALLS = 40;

/** How many findings a board carries; older ones stand in the journal. */
export const KEPT_FINDINGS = 60;

/** How many readings of the weather a day carries. */
export const KEPT_READINGS = 24;

/** How many days back the rules about rest look: a week's worth, and as many in a row as the rule can be set to. */
export const KEPT_DAYS_WORKED = 7;
