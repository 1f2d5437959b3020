/**
 * The barn's time on a tablet whose own clock is not trusted: the hub's clock by ping exchanges, held by the monotonic
 * clock between them, then the barn clock on top of it (in a demo it runs faster). All times in ms.
 */
import { barnTimeAt } from '#core/time/barnClock.ts';
import { bestOffset, sampleOf, withSample, type Sample } from '#core/time/offset.ts';
import { aimedAt, steadyOffset, type SteadyClock } from '#core/time/steadyClock.ts';
import type { BarnClock } from '#core/wire/messages.ts';

/** `mono` never jumps; `wall` may, and serves only until the hub has answered once. */
export type Clocks = { readonly mono: () => number; readonly wall: () => number };

export type PongTimes = { readonly t1: number; readonly t2: number; readonly t3: number };

/** Why the shown time jumped: this device slept, the hub's clock was set, or the network had misled it. */
export type Step = { readonly byMs: number; readonly why: 'slept' | 'hubSet' | 'misled' };

/** More than the exchanges' own uncertainty (half their round trips) by this much: one of both clocks was stepped. */
const STEP_MS = 50;

/** So many exchanges are only finding the time: nobody has relied on it yet, so it is set and not slewed. */
const FINDING = 4;

/**
 * The window with a new sample; the new sample alone when it cannot be squared with what was believed: the tablet slept
 * while its monotonic clock stood, or the hub's clock was set. RFC 5905 §8: the offset is off by half the delay at most.
 */
export function withSampleOrStep(window: readonly Sample[], sample: Sample): readonly Sample[] {
  const believed = bestOffset(window);
  const best = window.find((one) => one.offsetMs === believed);
  if (!best) return withSample([], sample);
  const uncertain = (best.roundTripMs + sample.roundTripMs) / 2 + STEP_MS;
  const stepped = Math.abs(sample.offsetMs - best.offsetMs) > uncertain;
  return withSample(stepped ? [] : window, sample);
}

export class HubClock {
  readonly #clocks: Clocks;
  #samples: readonly Sample[] = [];
  #steady: SteadyClock | null = null;
  #doubt: Step['why'] | null = null;
  #exchanges = 0;
  #lastStep: Step | null = null;
  #barn: BarnClock | null = null;
  #hubMinusWall: number | null = null;
  /** Pings sent before this say nothing any more; by the tablet's monotonic clock. */
  #pingsFrom = -Infinity;

  constructor(clocks: Clocks) {
    this.#clocks = clocks;
  }

  /** The tablet's own monotonic time, as a ping carries it. */
  mono(): number {
    return this.#clocks.mono();
  }

  /** The device's own clock, which anybody may set: only for what is compared within this device. */
  wall(): number {
    return this.#clocks.wall();
  }

  /** What an earlier visit knew, for a start while the hub is away. */
  remember(hubMinusWall: number, barn: BarnClock | null): void {
    this.#hubMinusWall = hubMinusWall;
    this.#barn ??= barn;
  }

  /**
   * What was believed may be wrong now: the next exchange counts alone, and its correction is stepped. A ping that is still
   * out began before the sleep or the step, so its answer mixes both times and is left out.
   */
  doubt(why: 'slept' | 'hubSet'): void {
    this.#samples = [];
    this.#pingsFrom = this.#clocks.mono();
    this.#doubt = why;
  }

  takePong(pong: PongTimes): void {
    if (pong.t1 < this.#pingsFrom) return;
    const before = this.#samples;
    this.#samples = withSampleOrStep(before, sampleOf({ ...pong, t4: this.#clocks.mono() }));
    const target = bestOffset(this.#samples);
    if (target === null) return;
    this.#exchanges += 1;
    const wasSet = before.length > 0 && this.#samples.length === 1;
    const mayStep = wasSet || this.#doubt !== null || this.#exchanges <= FINDING;
    const { clock, steppedMs } = aimedAt(this.#steady, this.#clocks.mono(), target, mayStep);
    this.#steady = clock;
    if (steppedMs !== null && this.#exchanges > FINDING) {
      this.#lastStep = { byMs: steppedMs, why: this.#doubt ?? (wasSet ? 'hubSet' : 'misled') };
    }
    this.#doubt = null;
    this.#hubMinusWall = this.hubNow() - this.#clocks.wall();
  }

  takeBarnClock(clock: BarnClock): void {
    this.#barn = clock;
  }

  get barnClock(): BarnClock | null {
    return this.#barn;
  }

  /** How far this device's wall clock is behind the hub's, for the next start. */
  get hubMinusWall(): number {
    return this.#hubMinusWall ?? 0;
  }

  /** Whether there is anything to tell the hub's time by: an answered ping, or an earlier visit. Else nothing shows a time. */
  get isKnown(): boolean {
    return this.#hubMinusWall !== null;
  }

  /** Whether the hub has answered a ping since the page was loaded. */
  get isSynced(): boolean {
    return this.#steady !== null;
  }

  /** The last time the shown time jumped, once it had been found. */
  get lastStep(): Step | null {
    return this.#lastStep;
  }

  hubNow(): number {
    const mono = this.#clocks.mono();
    return this.#steady === null
      ? this.#clocks.wall() + this.hubMinusWall
      : mono + steadyOffset(this.#steady, mono);
  }

  barnNow(): number {
    const hub = this.hubNow();
    return this.#barn ? barnTimeAt(this.#barn, hub) : hub;
  }
}
