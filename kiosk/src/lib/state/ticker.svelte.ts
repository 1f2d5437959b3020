/** Barn time as the screens see it: it moves once a second, on the hub's full second, so that all boards turn together. */
import { SECOND_MS } from '#core/time/units.ts';
import type { HubClock } from '../link/clock.ts';

/** Past the full second by this much, since a timer may come a little early. */
const AFTER_THE_SECOND_MS = 5;

export class Ticker {
  readonly #clock: HubClock;
  #barn = $state(0);
  #hub = $state(0);
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(clock: HubClock) {
    this.#clock = clock;
    this.read();
  }

  /** Barn time, ms. */
  get now(): number {
    return this.#barn;
  }

  /** Hub time, ms: for what happens outside the barn's pretend time, as how long the hub has been away. */
  get hub(): number {
    return this.#hub;
  }

  read(): void {
    this.#barn = this.#clock.barnNow();
    this.#hub = this.#clock.hubNow();
  }

  start(): void {
    this.stop();
    this.read();
    const past = ((this.#hub % SECOND_MS) + SECOND_MS) % SECOND_MS;
    this.#timer = setTimeout(() => this.start(), SECOND_MS - past + AFTER_THE_SECOND_MS);
  }

  stop(): void {
    clearTimeout(this.#timer);
  }
}
