/** Bytes of a file as text. Expected bytes by Windows-1252 (WHATWG Encoding, index windows-1252) and RFC 3629, from memory. */
import { expect, test } from 'vitest';
import { decode } from '../../../kiosk/src/lib/link/decode.ts';

const bytes = (...all: number[]): Uint8Array => Uint8Array.from(all);
const utf16 = (text: string, isLittle: boolean): Uint8Array => {
  const all = new Uint8Array(text.length * 2);
  const view = new DataView(all.buffer);
  for (let i = 0; i < text.length; i += 1) view.setUint16(i * 2, text.charCodeAt(i), isLittle);
  return all;
};

test('UTF-8, with its mark and without', () => {
  const text = 'Jürgen €';
  const plain = new TextEncoder().encode(text);
  expect(decode(plain)).toEqual({ text, encoding: 'utf-8' });
  expect(decode(bytes(0xef, 0xbb, 0xbf, ...plain))).toEqual({ text, encoding: 'utf-8' });
});

test('what is no UTF-8 is Windows-1252: u with dots is one byte there, and the euro sign is 0x80', () => {
  expect(decode(bytes(0x4a, 0xfc, 0x72, 0x67, 0x65, 0x6e, 0x20, 0x80))).toEqual({
    text: 'Jürgen €',
    encoding: 'windows-1252',
  });
});

test('UTF-16 by its mark, in either order of bytes', () => {
  expect(decode(utf16('\ufeffFáber', true))).toEqual({ text: 'Fáber', encoding: 'utf-16le' });
  expect(decode(utf16('\ufeffFáber', false))).toEqual({ text: 'Fáber', encoding: 'utf-16be' });
});

test('bytes that are not what their mark says are no text', () => {
  // Half a sign at the end.
  expect(decode(bytes(0xff, 0xfe, 0x41, 0x00, 0x42))).toBeNull();
  expect(decode(bytes(0xef, 0xbb, 0xbf, 0xff))).toBeNull();
});
