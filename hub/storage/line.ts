/**
 * One line of a journal file: length, checksum, JSON, each a thing that a torn or damaged write breaks.
 *
 *     0000002a e3069283 {"...":...}\n
 *
 * Length is that of the JSON in bytes, checksum its CRC-32C (RFC 3720 B.4), both in eight hex digits. JSON has no raw line
 * feed, so a line can be found again after damage.
 */
import { sumOf } from './seal.ts';

const HEAD_BYTES = 18;
const HEAD = /^([0-9a-f]{8}) ([0-9a-f]{8}) $/;
const LENGTH_DIGITS = 8;
const LINE_FEED = 0x0a;
const SPACE = 0x20;

export function toLine(value: unknown): Buffer {
  const json = Buffer.from(JSON.stringify(value), 'utf8');
  return Buffer.concat([
    Buffer.from(`${json.length.toString(16).padStart(8, '0')} ${sumOf(json)} `, 'latin1'),
    json,
    Buffer.of(LINE_FEED),
  ]);
}

type Line = { readonly value: unknown; readonly atByte: number };

/** `damage`: the first byte that is no part of a whole line, and whether whole lines come after it. */
export type Lines = {
  readonly lines: readonly Line[];
  readonly damage: { readonly atByte: number; readonly tail: boolean } | null;
};

/** Every whole line from the start. `tail`: nothing whole comes after the damage, so it is an unfinished last write. */
export function readLines(bytes: Buffer): Lines {
  const lines: Line[] = [];
  let at = 0;
  while (at < bytes.length) {
    const line = lineAt(bytes, at);
    if (!line) return { lines, damage: { atByte: at, tail: !hasLineAfter(bytes, at) } };
    lines.push({ value: line.value, atByte: at });
    at = line.end;
  }
  return { lines, damage: null };
}

function lineAt(bytes: Buffer, at: number): { value: unknown; end: number } | null {
  const head = HEAD.exec(bytes.toString('latin1', at, at + HEAD_BYTES));
  if (!head?.[1] || !head[2]) return null;
  const start = at + HEAD_BYTES;
  const end = start + Number.parseInt(head[1], 16);
  if (bytes[end] !== LINE_FEED) return null;
  const json = bytes.subarray(start, end);
  if (sumOf(json) !== head[2]) return null;
  try {
    return { value: JSON.parse(json.toString('utf8')), end: end + 1 };
  } catch {
    return null;
  }
}

/** At every byte, since a line feed may itself be what was damaged. */
function hasLineAfter(bytes: Buffer, from: number): boolean {
  for (let at = from + 1; at + HEAD_BYTES < bytes.length; at += 1) {
    if (bytes[at + LENGTH_DIGITS] === SPACE && lineAt(bytes, at)) return true;
  }
  return false;
}
