/** Tables as RFC 4180 section 2 has them, rule by rule, with that section's own cells; and what spreadsheets add to it. */
import { describe, expect, test } from 'vitest';
import { readTable, type Table } from '#core/exchange/csv/table.ts';
import { columnLetters } from '#core/exchange/problem.ts';
import { sourceOfAll } from '../source.ts';

sourceOfAll('RFC 4180, section 2');

const cells = (text: string): readonly (readonly string[])[] => {
  const table = readTable(text);
  if (!('rows' in table)) throw new Error(JSON.stringify(table));
  return [table.headings, ...table.rows.map((row) => row.cells.slice(0, table.headings.length))];
};

describe('RFC 4180 section 2', () => {
  test.each([
    [
      'rule 1: a line break after each record',
      'aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n',
      [
        ['aaa', 'bbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    [
      'rule 2: none after the last',
      'aaa,bbb,ccc\r\nzzz,yyy,xxx',
      [
        ['aaa', 'bbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    [
      'rule 5: cells with or without quotes',
      '"aaa","bbb","ccc"\r\nzzz,yyy,xxx',
      [
        ['aaa', 'bbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    [
      'rule 6: a line break inside quotes',
      'a,b,c\r\n"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx',
      [
        ['a', 'b', 'c'],
        ['aaa', 'b\nbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    [
      'rule 7: a quote inside quotes is doubled',
      'a,b,c\r\n"aaa","b""bb","ccc"',
      [
        ['a', 'b', 'c'],
        ['aaa', 'b"bb', 'ccc'],
      ],
    ],
  ])('%s', (_rule, text, expected) => {
    expect(cells(text)).toEqual(expected);
  });
});

describe('what spreadsheets make of it (common practice, no source)', () => {
  test.each([
    [';', 'a;b\n1,5;2\n'],
    ['\t', 'a\tb\n1,5\t2\n'],
    [',', '"a;x;y;z",b\n"1,5",2\n'],
  ])('cells parted by %j', (separator, text) => {
    const table = readTable(text) as Table;
    expect(table.separator).toBe(separator);
    expect(table.rows[0]?.cells).toEqual(['1,5', '2']);
  });

  test.each(['\r\n', '\n', '\r'])('rows parted by %j', (end) => {
    expect(cells(['a,b', '1,2', '3,4'].join(end))).toEqual([
      ['a', 'b'],
      ['1', '2'],
      ['3', '4'],
    ]);
  });

  test('an empty row counts as a row, as it does in the spreadsheet', () => {
    const table = readTable('a,b\n1,2\n,\n3,4\n') as Table;
    expect(table.rows.map(({ number }) => number)).toEqual([2, 4]);
  });

  test('columns are named A to Z, then AA', () => {
    expect([1, 26, 27, 52, 53, 702, 703].map(columnLetters)).toEqual([
      'A',
      'Z',
      'AA',
      'AZ',
      'BA',
      'ZZ',
      'AAA',
    ]);
  });
});
