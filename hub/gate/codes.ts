/** Pairing codes: six digits, five minutes, one use. Known to the running hub alone. */
import { randomInt, timingSafeEqual } from 'node:crypto';
import { MINUTE_MS } from '#core/time/units.ts';
import { CODE_DIGITS } from '#core/wire/locking.ts';

export const CODE_MS = 5 * MINUTE_MS;

/** More at once would only make guessing easier; an older one goes. */
const MOST_CODES = 4;

/** `atHub`: shown on the hub's own console, so whoever has it stood there. */
type Code = { readonly digits: string; readonly until: number; readonly atHub: boolean };

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
    const code = { digits, until: this.#clock() + CODE_MS, atHub };
    this.#codes = [...this.#live(), code].slice(-MOST_CODES);
    return code;
  }

  /** Uses the code up; null: there is no such code any more. */
  take(digits: string): Code | null {
    const found = this.#live().filter((one) => isSame(one.digits, digits))[0] ?? null;
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

function isSame(a: string, b: string): boolean {
  const [one, other] = [Buffer.from(a), Buffer.from(b)];
  return one.length === other.length && timingSafeEqual(one, other);
}
