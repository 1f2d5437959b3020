/** Ids for ops, questions and this device. Plain http has no `crypto.randomUUID`, but it has `getRandomValues`. */

/** 32 signs, so that one random byte gives one sign without a bias. */
const SIGNS = 'abcdefghijklmnopqrstuvwxyz234567';

/** 20 signs of 5 bits: 100 random bits. */
const ID_SIGNS = 20;

export type RandomBytes = (count: number) => Uint8Array;

/** A new id as `src/barn/basics` accepts it. */
export function newId(random: RandomBytes = browserBytes): string {
  return Array.from(random(ID_SIGNS), (byte) => SIGNS.charAt(byte & 31)).join('');
}

function browserBytes(count: number): Uint8Array {
  return crypto.getRandomValues(new Uint8Array(count));
}
