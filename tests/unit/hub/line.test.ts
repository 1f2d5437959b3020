/** Journal lines: the checksum against published values, and every way a line can be torn or damaged. */
import { crc32c } from '@aws-crypto/crc32c';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readLines, toLine } from '../../../hub/storage/line.ts';

const values = fc.array(fc.jsonValue(), { minLength: 1, maxLength: 6 });

const linesOf = (some: readonly unknown[]): Buffer[] => some.map((value) => toLine(value));

/** JSON has one zero only, so -0 reads back as 0. */
const asJson = (value: unknown): unknown => JSON.parse(JSON.stringify(value));

describe('the checksum is CRC-32C', () => {
  // RFC 3720 B.4, byte order as printed there: 32 zeros aa36918a, 32 ones 43aba862, ascending 4e79dd46, descending 5cdb3f11.
  test.each([
    ['32 bytes of zeros', Buffer.alloc(32), 0x8a9136aa],
    ['32 bytes of ones', Buffer.alloc(32, 0xff), 0x62a8ab43],
    ['32 ascending bytes', Buffer.from(Array.from({ length: 32 }, (_, i) => i)), 0x46dd794e],
    ['32 descending bytes', Buffer.from(Array.from({ length: 32 }, (_, i) => 31 - i)), 0x113fdb5c],
  ])('%s', (_name, bytes, sum) => {
    expect(crc32c(bytes)).toBe(sum);
  });

  test('a line carries length and checksum of its JSON', () => {
    // The JSON text 123456789; its check value e3069283 stands in Cook's catalogue of parametrised CRCs, CRC-32/ISCSI.
    expect(toLine(123_456_789).toString()).toBe('00000009 e3069283 123456789\n');
  });
});

describe('reading back', () => {
  test('gives what was written', () => {
    fc.assert(
      fc.property(values, (some) => {
        const { lines, damage } = readLines(Buffer.concat(linesOf(some)));
        expect(damage).toBeNull();
        expect(lines.map((line) => line.value)).toEqual(some.map((value) => asJson(value)));
      }),
    );
  });

  test('a cut anywhere in the last line is a torn tail that begins where that line began', () => {
    fc.assert(
      fc.property(values, fc.double({ min: 0, max: 1, noNaN: true }), (some, share) => {
        const written = linesOf(some);
        const last = written.at(-1)!;
        const whole = Buffer.concat(written);
        const cut = 1 + Math.floor(share * (last.length - 2));
        const { lines, damage } = readLines(whole.subarray(0, whole.length - last.length + cut));
        expect(lines).toHaveLength(some.length - 1);
        expect(damage).toEqual({ atByte: whole.length - last.length, tail: true });
      }),
    );
  });

  test('one changed byte is always noticed, and told apart by whether good lines follow', () => {
    fc.assert(
      fc.property(
        fc.array(fc.jsonValue(), { minLength: 2, maxLength: 5 }),
        fc.nat(),
        fc.integer({ min: 1, max: 255 }),
        (some, where, flip) => {
          const written = linesOf(some);
          const bytes = Buffer.concat(written);
          const at = where % bytes.length;
          bytes[at]! ^= flip;
          let start = 0;
          let hit = 0;
          while (at >= start + written[hit]!.length) start += written[hit++]!.length;
          const { lines, damage } = readLines(bytes);
          expect(lines).toHaveLength(hit);
          // Also where the changed byte is the line feed in front of the next line.
          expect(damage).toEqual({ atByte: start, tail: hit === some.length - 1 });
        },
      ),
    );
  });

  test('bytes of zeros after the last line, as some file systems leave them, are a torn tail', () => {
    const line = toLine([1]);
    const { damage } = readLines(Buffer.concat([line, Buffer.alloc(4096)]));
    expect(damage).toEqual({ atByte: line.length, tail: true });
  });
});
