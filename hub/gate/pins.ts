/** Whether a PIN is the one it should be: one try after the other, each counted on disk before it is looked at. */
import type { GATE_REFUSALS, GateOutcome } from '#core/wire/gate.ts';
import { COST, isPin, type PinKey } from './pin.ts';
import type { GateRecord } from './record.ts';
import { barnWaitMs, levelAt, NO_TRIES, oneMore, oneMoreInBarn, waitMs } from './tries.ts';

type Why = (typeof GATE_REFUSALS)[number];

export const DONE: GateOutcome = { is: 'done' };

export function refused(why: Why, wait = 0): GateOutcome {
  return { is: 'refused', why, waitMs: Math.ceil(wait) };
}

export type PinTry = {
  readonly tablet: string;
  /** A coordinator's own tablet does not wait for what was tried on the wall. */
  readonly isOwn: boolean;
  readonly pin: string;
  /** Null: there is none for this person; the try counts all the same and takes as long. */
  readonly key: PinKey | null;
};

export type PinsParts = {
  /** Hub time in ms. */
  readonly clock: () => number;
  readonly tries: () => GateRecord['tries'];
  /** Counts at once; resolves when it is on disk. */
  readonly setTries: (tries: GateRecord['tries']) => Promise<void>;
};

/** Stands in for somebody who has no PIN, so that the time it takes does not tell. */
const NOBODYS: PinKey = { ...COST, salt: '', key: Buffer.alloc(32).toString('base64') };

export class Pins {
  readonly #parts: PinsParts;
  #last: Promise<unknown> = Promise.resolve();
  readonly #waiting = new Set<string>();

  constructor(parts: PinsParts) {
    this.#parts = parts;
  }

  /** Tries wait for each other, and each tablet has one at a time: many at once learn no more than one by one. */
  async try(one: PinTry): Promise<GateOutcome> {
    if (this.#waiting.has(one.tablet)) return refused('wait', 1000);
    this.#waiting.add(one.tablet);
    const mine = this.#last.then(() => this.#look(one));
    this.#last = mine.catch(() => {});
    try {
      return await mine;
    } finally {
      this.#waiting.delete(one.tablet);
    }
  }

  async #look({ tablet, isOwn, pin, key }: PinTry): Promise<GateOutcome> {
    const { clock, tries, setTries } = this.#parts;
    const before = tries();
    const own = before.tablets[tablet] ?? NO_TRIES;
    const wait = Math.max(waitMs(own, clock()), isOwn ? 0 : barnWaitMs(before.barn, clock()));
    if (wait > 0) return refused('wait', wait);
    const counted = oneMore(own, clock());
    // Counted as wrong until it proves right: neither a power cut nor a second try in between is a way round.
    // A disk that takes nothing keeps no coordinator out; then memory alone counts.
    await setTries({
      tablets: { ...before.tablets, [tablet]: counted },
      barn: oneMoreInBarn(before.barn, clock()),
    }).catch(() => {});
    const isRight = (await isPin(pin, key ?? NOBODYS)) && key !== null;
    if (!isRight) return refused('wrongPin', waitMs(counted, clock()));
    const { [tablet]: _gone, ...others } = tries().tablets;
    const barn = { level: Math.max(0, levelAt(tries().barn, clock()) - 1), at: clock() };
    await setTries({ tablets: others, barn }).catch(() => {});
    return DONE;
  }
}
