/**
 * Pairing codes: six digits to be typed, or in an address the same with a secret that nobody guesses; five minutes, one use.
 * Known to the running hub alone.
 */
import { randomBytes, randomInt, timingSafeEqual } from 'node:crypto';
import { MINUTE_MS } from '#core/time/units.ts';
import { CODE_DIGITS } from '#core/wire/locking.ts';

export const CODE_MS = 5 * MINUTE_MS;

/** More at once would only make guessing easier; an older one goes. */
const MOST_CODES = 4;

/** `atHub`: shown on the hub's own console, so whoever has it stood there. */
type Code = {
  readonly digits: string;
  /** As an address brings it. */
  readonly whole: string;
  readonly until: number;
  readonly atHub: boolean;
};

/** 128 bits. */
const SECRET_BYTES = 16;

export class Codes {
  readonly #clock: () => number;
  #codes: Code[] = [];

  /** `clock`: hub time in ms. */
  constructor(clock: () => number) {
    this.#clock = clock;
  }

  make(atHub: boolean): Code {
    return this.add(String(randomInt(10 ** CODE_DIGITS)).padStart(CODE_DIGITS, '0'), atHub);
  }

  /** One that was made elsewhere. */
  add(digits: string, atHub: boolean): Code {
    const secret = randomBytes(SECRET_BYTES).toString('base64url');
    const code = { digits, whole: `${digits}-${secret}`, until: this.#clock() + CODE_MS, atHub };
    this.#codes = [...this.#live(), code].slice(-MOST_CODES);
    return code;
  }

  /** Uses the code up, as typed or whole; null: there is no such code any more. */
  take(code: string): Code | null {
    const isIt = (one: Code): boolean => isSame(isWhole(code) ? one.whole : one.digits, code);
    const found = this.#live().find(isIt) ?? null;
    this.#codes = this.#live().filter((one) => one !== found);
    return found;
  }

  /** What the hub's own console showed counts no longer. */
  dropAtHub(): void {
    this.#codes = this.#live().filter(({ atHub }) => !atHub);
  }

  #live(): Code[] {
    const now = this.#clock();
    return this.#codes.filter(({ until }) => now < until);
  }
}

/** Whether it has the secret: what nobody can guess need not be kept from guessers. */
export function isWhole(code: string): boolean {
  return code.length > CODE_DIGITS;
}

function isSame(a: string, b: string): boolean {
  const [one, other] = [Buffer.from(a), Buffer.from(b)];
  return one.length === other.length && timingSafeEqual(one, other);
}
