/** Cells as people write them. Common practice, no source, but for dates: ISO 8601 and the two orders of day and month. */
import { describe, expect, test } from 'vitest';
import { dateOf, numberOf, orderOf, timeOf, yesNoOf } from '#core/exchange/csv/cells.ts';

const number = (text: string): unknown => {
  const cell = numberOf(text, -10_000, 10_000);
  return 'value' in cell ? cell.value : cell.what.code;
};

describe('numbers', () => {
  test.each([
    ['512', 512],
    ['512.5', 512.5],
    ['512,5', 512.5],
    ['1.024,5', 1024.5],
    ['1,024.5', 1024.5],
    ['1 024,5', 1024.5],
    ['0,125', 0.125],
    ['1,024', 'thousandsOrDecimal'],
    ['1.024', 'thousandsOrDecimal'],
    ['1,02,4', 'notNumber'],
    ['512 kg', 'notNumber'],
    ['1e3', 'notNumber'],
    ['20000', 'outside'],
  ])('%s', (text, expected) => {
    expect(number(text)).toBe(expected);
  });
});

describe('dates', () => {
  test.each([
    ['2026-03-29', 'dmy', '2026-03-29'],
    ['2026/3/9', 'dmy', '2026-03-09'],
    ['03/04/2026', 'dmy', '2026-04-03'],
    ['03/04/2026', 'mdy', '2026-03-04'],
    ['3.4.2026', 'dmy', '2026-04-03'],
    ['29 March 2026', 'mdy', '2026-03-29'],
    ['March 29, 2026', 'dmy', '2026-03-29'],
    ['29 de marzo de 2026', 'dmy', '2026-03-29'],
    ['2024-02-29', 'dmy', '2024-02-29'],
    ['2026-02-29', 'dmy', 'notDate'],
    ['31/04/2026', 'dmy', 'notDate'],
    ['03/04/26', 'dmy', 'notDate'],
    ['29 Foo 2026', 'dmy', 'notDate'],
  ] as const)('%s, %s', (text, order, expected) => {
    const cell = dateOf(text, order);
    expect('value' in cell ? cell.value : cell.what.code).toBe(expected);
  });

  test.each([
    [['03/04/2026', '13/04/2026'], 'dmy'],
    [['03/04/2026', '04/13/2026'], 'mdy'],
    [['03/04/2026', '05/06/2026'], 'either'],
    [['13/04/2026', '04/13/2026'], 'either'],
    [['04/04/2026'], 'none'],
    [['2026-03-04'], 'none'],
  ])('the order of a column %j', (column, expected) => {
    expect(orderOf(column)).toBe(expected);
  });
});

describe('times', () => {
  test.each([
    ['14:30', '14:30'],
    ['9:05', '09:05'],
    ['14.30', '14:30'],
    ['14h30', '14:30'],
    ['14:30:00', '14:30'],
    ['2:30 pm', '14:30'],
    ['2:30 p.m.', '14:30'],
    ['9 am', '09:00'],
    ['12:15 am', '00:15'],
    ['12 PM', '12:00'],
    ['9', 'notTime'],
    ['24:00', 'notTime'],
    ['13 pm', 'notTime'],
    ['9:60', 'notTime'],
  ])('%s', (text, expected) => {
    const cell = timeOf(text);
    expect('value' in cell ? cell.value : cell.what.code).toBe(expected);
  });
});

test('yes and no', () => {
  expect(['yes', 'X', 'sí', 'no', '0', 'maybe'].map((text) => yesNoOf(text))).toEqual([
    { value: true },
    { value: true },
    { value: true },
    { value: false },
    { value: false },
    { what: { code: 'notYesNo', text: 'maybe' } },
  ]);
});
