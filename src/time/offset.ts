/**
 * The hub's clock, seen from a tablet whose own clock is not trusted. Four timestamps an exchange give an offset and a
 * round trip; of a window of exchanges the one with the least round trip is believed, since delay is what spoils it.
 * Arithmetic: RFC 5905 §8 (offset theta, delay delta). All times in ms.
 */

/** `t1` sent and `t4` received by the tablet's monotonic clock, `t2` received and `t3` sent by the hub's clock. */
export type Exchange = { readonly t1: number; readonly t2: number; readonly t3: number; readonly t4: number };

export type Sample = { readonly offsetMs: number; readonly roundTripMs: number };

/** How many exchanges are looked back on. */
export const SAMPLE_WINDOW = 8;

/** theta = ((t2 − t1) + (t3 − t4)) / 2, delta = (t4 − t1) − (t3 − t2). */
export function sampleOf({ t1, t2, t3, t4 }: Exchange): Sample {
  return { offsetMs: (t2 - t1 + (t3 - t4)) / 2, roundTripMs: t4 - t1 - (t3 - t2) };
}

/** The window with a new sample, oldest left out. A round trip below zero cannot be: that exchange is left out. */
export function withSample(window: readonly Sample[], sample: Sample): readonly Sample[] {
  if (!Number.isFinite(sample.offsetMs) || sample.roundTripMs < 0) return window;
  return [...window, sample].slice(-SAMPLE_WINDOW);
}

/** Hub time minus tablet time, ms; null before the first exchange. */
export function bestOffset(window: readonly Sample[]): number | null {
  const best = window.reduce<Sample | null>(
    (least, sample) => (least && least.roundTripMs <= sample.roundTripMs ? least : sample),
    null,
  );
  return best?.offsetMs ?? null;
}
