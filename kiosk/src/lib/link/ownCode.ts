/** A code that a page makes up itself. */
import { CODE_DIGITS } from '#core/wire/locking.ts';
import type { RandomBytes } from './ids.ts';

/** Largest multiple of ten that a byte can be below, so that every digit comes as often. */
const FAIR_BELOW = 250;

/** A pairing code of this page's own making, for the barn it begins. */
export function newCode(
  random: RandomBytes = (count) => crypto.getRandomValues(new Uint8Array(count)),
): string {
  let code = '';
  while (code.length < CODE_DIGITS) {
    for (const byte of random(CODE_DIGITS)) {
      if (byte < FAIR_BELOW && code.length < CODE_DIGITS) code += String(byte % 10);
    }
  }
  return code;
}
