/** A file's bytes as text. Spreadsheets write UTF-8, with a byte order mark or without, UTF-16 with one, or Windows-1252. */

export type Encoding = 'utf-8' | 'utf-16le' | 'utf-16be' | 'windows-1252';
export type Decoded = { readonly text: string; readonly encoding: Encoding };

/** By the byte order mark (Unicode §23.8); the mark itself is left out. */
const MARKS: readonly (readonly [Encoding, readonly number[]])[] = [
  ['utf-8', [0xef, 0xbb, 0xbf]],
  ['utf-16le', [0xff, 0xfe]],
  ['utf-16be', [0xfe, 0xff]],
];

/**
 * Null: not text in the encoding its mark names. Without a mark it is UTF-8 where every byte fits, else Windows-1252, which
 * any bytes are (WHATWG Encoding §9).
 */
export function decode(bytes: Uint8Array): Decoded | null {
  const marked = MARKS.find(([, mark]) => mark.every((byte, i) => bytes[i] === byte))?.[0];
  if (marked) return as(marked, bytes);
  return as('utf-8', bytes) ?? as('windows-1252', bytes);
}

function as(encoding: Encoding, bytes: Uint8Array): Decoded | null {
  try {
    return { text: new TextDecoder(encoding, { fatal: true }).decode(bytes), encoding };
  } catch {
    return null;
  }
}
