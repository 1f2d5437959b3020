/** How long tests wait. Only a program that is wrong makes them wait so long: a busy machine is no failure. */

/** Longest for anything that will surely come, in ms. */
export const PATIENCE_MS = 60_000;

/** Longest for one test, or for what is made ready before it, in ms. */
export const TEST_MS = 10 * PATIENCE_MS;
