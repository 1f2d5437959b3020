/** Barn time as the screens see it: it moves once a second, on the hub's full second, so that all boards turn together. */
import { MINUTE_MS, SECOND_MS } from '#core/time/units.ts';
import type { HubClock } from '../link/clock.ts';

/** Between two ticks there is a second; more than this and the device slept, or the page was put aside. */
const GAP_MS = 5 * SECOND_MS;

/** Both of a device's clocks move alike, unless one stood still in its sleep or was set. */
const APART_MS = SECOND_MS;

/** Past the full second by this much, since a timer may come a little early. */
const AFTER_THE_SECOND_MS = 5;

export class Ticker {
  readonly #clock: HubClock;
  #barn = $state(0);
  #hub = $state(0);
  #isKnown = $state(false);
  readonly #minute = $derived(Math.floor(this.#barn / MINUTE_MS) * MINUTE_MS);
  #timer: ReturnType<typeof setTimeout> | undefined;
  #last: { readonly mono: number; readonly wall: number } | null = null;
  readonly #onTick: (hasSlept: boolean) => void;

  constructor(clock: HubClock, onTick: (hasSlept: boolean) => void) {
    this.#clock = clock;
    this.#onTick = onTick;
    this.read();
  }

  /** Barn time, ms. */
  get now(): number {
    return this.#barn;
  }

  /** False until the hub, now or on an earlier visit, has told the time: this device's own clock is never shown as it. */
  get isKnown(): boolean {
    return this.#isKnown;
  }

  /** The full minute it is, barn time in ms: for what says no more than that, so that it is worded once a minute. */
  get minute(): number {
    return this.#minute;
  }

  /** Hub time, ms: for what happens outside the barn's pretend time, as how long the hub has been away. */
  get hub(): number {
    return this.#hub;
  }

  read(): void {
    this.#barn = this.#clock.barnNow();
    this.#hub = this.#clock.hubNow();
    this.#isKnown = this.#clock.isKnown;
  }

  start(): void {
    this.stop();
    this.#onTick(this.#hasSlept());
    this.read();
    const past = ((this.#hub % SECOND_MS) + SECOND_MS) % SECOND_MS;
    this.#timer = setTimeout(() => this.start(), SECOND_MS - past + AFTER_THE_SECOND_MS);
  }

  /** To be called before a message that tells the time is believed: it may be heard before the first tick after a sleep. */
  noticeSleep(): void {
    if (this.#hasSlept()) this.#onTick(true);
  }

  #hasSlept(): boolean {
    const before = this.#last;
    const now = { mono: this.#clock.mono(), wall: this.#clock.wall() };
    this.#last = now;
    if (!before) return false;
    const mono = now.mono - before.mono;
    return mono > GAP_MS || Math.abs(now.wall - before.wall - mono) > APART_MS;
  }

  stop(): void {
    clearTimeout(this.#timer);
  }
}
