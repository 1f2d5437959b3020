/** Which version of the messages this is, and how much goes into one. */

export const PROTOCOL = 2;

/** Largest frame a tablet may send, in bytes: an hour of taps in one go is about a tenth of it. */
export const TABLET_FRAME_BYTES = 256 * 1024;

/** Most ops in one frame. */
export const OPS_A_FRAME = 200;

/** Most unanswered taps a tablet asks after at once: a day of one that was away. */
export const MOST_OPEN = 1000;
