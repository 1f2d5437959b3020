/**
 * Countdowns on all boards agree within 100 ms on a LAN, whatever the tablets' own clocks do: a simulated hub, network and
 * tablets in virtual time. The oracle is the simulation's own true time.
 */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { barnTimeAt } from '#core/time/barnClock.ts';
import { HOUR_MS, MINUTE_MS, SECOND_MS } from '#core/time/units.ts';
import { HubClock } from '../../kiosk/src/lib/link/clock.ts';

/** The design's promise. */
const AGREE_MS = 100;

/** Pings as the kiosk's line sends them: four close together, then one every 4 s. */
const QUICK_PING_MS = 250;
const PING_MS = 4 * SECOND_MS;

const SETTLING_MS = 12 * SECOND_MS;

const HUB_START = Date.UTC(2026, 4, 11, 14, 0);
const RAMP_TIME = HUB_START + HOUR_MS;

type Nature = {
  /** The wall clock's error in ms at the start, and a jump of it in the middle. */
  readonly wallOffMs: number;
  readonly wallJumpMs: number;
  /** How much too fast its clocks run. */
  readonly ppm: number;
  /** Where its monotonic clock stands at the start. */
  readonly monoStart: number;
  /** One-way delays in ms, used in turn. */
  readonly delays: readonly number[];
  /** Sleeps from `at` for `ms`; the monotonic clock stands meanwhile, as it does on many tablets. */
  readonly sleep: { readonly at: number; readonly ms: number } | null;
};

/** One way over the LAN, ms: a good moment, and any moment with a busy radio (common practice, no source). */
const fair = fc.integer({ min: 1, max: 30 });
const any = fc.oneof(
  { weight: 4, arbitrary: fair },
  { weight: 1, arbitrary: fc.integer({ min: 30, max: 400 }) },
);

/** There and back four times, one of them fair: with none fair, no clock can know the time (RFC 5905 §8). */
const fourExchanges = fc
  .tuple(fc.array(any, { minLength: 6, maxLength: 6 }), fair, fair, fc.nat({ max: 3 }))
  .map(([others, there, back, at]) => others.toSpliced(2 * at, 0, there, back));

const nature: fc.Arbitrary<Nature> = fc.record({
  wallOffMs: fc.integer({ min: -12 * HOUR_MS, max: 12 * HOUR_MS }),
  wallJumpMs: fc.integer({ min: -12 * HOUR_MS, max: 12 * HOUR_MS }),
  ppm: fc.integer({ min: -200, max: 200 }),
  monoStart: fc.integer({ min: 0, max: 10 * HOUR_MS }),
  delays: fc.array(fourExchanges, { minLength: 2, maxLength: 8 }).map((list) => list.flat()),
  sleep: fc.option(
    fc.record({
      at: fc.integer({ min: 60, max: 240 }).map((s) => s * SECOND_MS),
      ms: fc.integer({ min: 5, max: 3000 }).map((s) => s * SECOND_MS),
    }),
  ),
});

/** The kiosk's clock, with the simulation's time put into its hands. */
type Board = {
  readonly take: (pong: { t1: number; t2: number; t3: number }, mono: number) => void;
  readonly read: (mono: number) => number | null;
};

function kioskBoard(wall: () => number): Board {
  let now = 0;
  const clock = new HubClock({ mono: () => now, wall });
  return {
    take: (pong, mono) => {
      now = mono;
      clock.takePong(pong);
    },
    read: (mono) => {
      now = mono;
      return clock.isSynced ? clock.hubNow() : null;
    },
  };
}

/** One tablet in virtual time; `true` times are ms since the start. */
class Tablet {
  readonly #nature: Nature;
  readonly #board: Board;
  #nextPing = 0;
  #pings = 0;
  #pending: { arrives: number; pong: { t1: number; t2: number; t3: number } }[] = [];
  /** When what it shows can be relied on again: enough answers since it was switched on or woke. */
  #goodFrom = Infinity;
  #answersSince = 0;

  constructor(one: Nature) {
    this.#nature = one;
    this.#board = kioskBoard(() => this.#wall);
  }

  #wall = 0;

  mono(at: number): number {
    const { monoStart, ppm, sleep } = this.#nature;
    const slept = sleep && at > sleep.at ? Math.min(at - sleep.at, sleep.ms) : 0;
    return monoStart + (at - slept) * (1 + ppm / 1e6);
  }

  isAsleep(at: number): boolean {
    const { sleep } = this.#nature;
    return sleep !== null && at >= sleep.at && at < sleep.at + sleep.ms;
  }

  step(at: number): void {
    const { wallOffMs, wallJumpMs, ppm, delays } = this.#nature;
    this.#wall = HUB_START + at * (1 + ppm / 1e6) + wallOffMs + (at > 150 * SECOND_MS ? wallJumpMs : 0);
    if (this.isAsleep(at)) {
      this.#pending = [];
      this.#answersSince = 0;
      this.#goodFrom = Infinity;
      this.#nextPing = 0;
      return;
    }
    if (at >= this.#nextPing) {
      const [there, back] = [0, 1].map((i) => delays[(2 * this.#pings + i) % delays.length] ?? 1) as [
        number,
        number,
      ];
      this.#pings += 1;
      this.#nextPing = at + (this.#pings < 4 ? QUICK_PING_MS : PING_MS);
      const hub = Math.floor(HUB_START + at + there);
      this.#pending.push({ arrives: at + there + back, pong: { t1: this.mono(at), t2: hub, t3: hub } });
    }
    const due = this.#pending.filter(({ arrives }) => arrives <= at);
    this.#pending = this.#pending.filter(({ arrives }) => arrives > at);
    for (const { arrives, pong } of due) {
      this.#board.take(pong, this.mono(arrives));
      this.#answersSince += 1;
      // One of four was fair; what is left of the others' error is worked in at 10 ms a second.
      if (this.#answersSince === 4) this.#goodFrom = at + SETTLING_MS;
    }
  }

  /** Hub time as shown; null while it need not be right yet. */
  shown(at: number): number | null {
    return at >= this.#goodFrom && !this.isAsleep(at) ? this.#board.read(this.mono(at)) : null;
  }
}

const LENGTH_MS = 6 * MINUTE_MS;
const TICK_MS = 10;

/** The largest difference between two boards' countdowns at any second, in ms; and how often two could be compared. */
function worst(natures: readonly Nature[]): { apart: number; compared: number } {
  const tablets = natures.map((one) => new Tablet(one));
  const barn = { hub: HUB_START, barn: HUB_START, rate: 1 };
  let apart = 0;
  let compared = 0;
  for (let at = 0; at < LENGTH_MS; at += TICK_MS) {
    for (const tablet of tablets) tablet.step(at);
    if (at % SECOND_MS !== 0) continue;
    const left = tablets.flatMap((tablet) => {
      const hub = tablet.shown(at);
      return hub === null ? [] : RAMP_TIME - barnTimeAt(barn, hub);
    });
    if (left.length < 2) continue;
    compared += 1;
    apart = Math.max(
      apart,
      Math.max(...left) - Math.min(...left),
      ...left.map((ms) => Math.abs(ms - (RAMP_TIME - HUB_START - at))),
    );
  }
  return { apart, compared };
}

test('countdowns agree within 100 ms with each other and with the truth', () => {
  fc.assert(
    fc.property(fc.array(nature, { minLength: 3, maxLength: 5 }), (natures) => {
      const { apart, compared } = worst(natures);
      expect(compared).toBeGreaterThan(30);
      expect(apart).toBeLessThanOrEqual(AGREE_MS);
    }),
    { numRuns: 60 },
  );
});
