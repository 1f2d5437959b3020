/** Ids that a calendar's own uids come to: the same file read twice is the same records. */

const FNV_OFFSET = 0xcbf29ce484222325n;
const FNV_PRIME = 0x100000001b3n;
const MASK = 0xffffffffffffffffn;

/** FNV-1a, 64 bits (IETF draft-eastlake-fnv), in 16 hex digits, after `c`. */
export function idOfUid(uid: string): string {
  let hash = FNV_OFFSET;
  for (const byte of utf8(uid)) hash = ((hash ^ BigInt(byte)) * FNV_PRIME) & MASK;
  return `c${hash.toString(16).padStart(16, '0')}`;
}

/** The bytes of UTF-8; an engine's own encoder is not part of the language. */
function* utf8(text: string): Generator<number> {
  for (const sign of encodeURIComponent(text).matchAll(/%([0-9A-F]{2})|([^%])/g)) {
    yield sign[1] === undefined ? (sign[2]?.codePointAt(0) ?? 0) : Number.parseInt(sign[1], 16);
  }
}

/** `20260406` of `2026-04-06`. */
export function compact(date: string): string {
  return date.replaceAll('-', '');
}
