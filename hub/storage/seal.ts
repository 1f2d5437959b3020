/** JSON text that shows damage: the CRC-32C (RFC 3720 B.4) of an object's text is its last field, in eight hex digits. */
import { crc32c } from '@aws-crypto/crc32c';

const SEAL = /,"crc32c":"([0-9a-f]{8})"\}$/;

/** `{"a":1}` becomes `{"a":1,"crc32c":"…"}`. */
export function seal(data: object): string {
  const json = JSON.stringify(data);
  return `${json.slice(0, -1)},"crc32c":"${sumOf(json)}"}`;
}

/** `isWhole`: sealed, and as it was sealed. Throws SyntaxError for what is no JSON. */
export function unseal(text: string): { data: unknown; isWhole: boolean; isSealed: boolean } {
  const found = SEAL.exec(text);
  const json = found ? `${text.slice(0, found.index)}}` : text;
  return { data: JSON.parse(json) as unknown, isWhole: found?.[1] === sumOf(json), isSealed: found !== null };
}

/** CRC-32C in eight hex digits. */
export function sumOf(text: string | Buffer): string {
  return crc32c(typeof text === 'string' ? Buffer.from(text, 'utf8') : text)
    .toString(16)
    .padStart(8, '0');
}
