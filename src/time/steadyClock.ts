/**
 * A clock that follows the hub's without jumping about: small corrections are slewed, so that no countdown runs back or
 * skips; large ones are stepped, and say why. Pure: the tablet's monotonic time comes in. All times in ms.
 */

/**
 * Above this a correction is stepped. RFC 5905 §11.3 (STEPT): 0.125 s. Just above what boards may differ by, 100 ms, so a
 * board that is visibly wrong is right at once.
 */
export const STEP_MS = 125;

/**
 * How fast a correction is worked in: 10 ms a second. NTP's own 0.5 ms a second (RFC 5905's 500 ppm) is for a kernel's
 * clock; a board that is 100 ms off must be right again within seconds. Own choice.
 */
export const SLEW_RATE = 0.01;

/** At tablet time `mono` hub minus tablet was `offset`; from there it moves to `target`. */
export type SteadyClock = { readonly mono: number; readonly offset: number; readonly target: number };

export type Correction = {
  readonly clock: SteadyClock;
  /** How far the clock was stepped; null: it is slewed, or already right. */
  readonly steppedMs: number | null;
};

/** Hub minus tablet at tablet time `mono`. */
export function steadyOffset({ mono: from, offset, target }: SteadyClock, mono: number): number {
  const most = Math.max(0, mono - from) * SLEW_RATE;
  const left = target - offset;
  return Math.abs(left) <= most ? target : offset + Math.sign(left) * most;
}

/**
 * The clock from tablet time `mono` on, aiming at `target`. Stepped when there was none before (null), when the correction
 * is above `STEP_MS`, or when `mayStep` says that nobody relies on it yet or that one of both clocks was set.
 */
export function aimedAt(
  before: SteadyClock | null,
  mono: number,
  target: number,
  mayStep: boolean,
): Correction {
  const stepped = (offset: number): SteadyClock => ({ mono, offset, target: offset });
  if (!before) return { clock: stepped(target), steppedMs: null };
  const offset = steadyOffset(before, mono);
  if (mayStep || Math.abs(target - offset) > STEP_MS) {
    return { clock: stepped(target), steppedMs: target === offset ? null : target - offset };
  }
  return { clock: { mono, offset, target }, steppedMs: null };
}
