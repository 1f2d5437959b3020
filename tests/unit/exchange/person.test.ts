/** What is given out of one person, and of nobody else. RFC 4180 for the table; the rest: common practice, no source. */
import { expect, test } from 'vitest';
import { withRecords } from '#core/barn/tables.ts';
import type { Entry } from '#core/day/ops.ts';
import { readTable } from '#core/exchange/csv/table.ts';
import { writePerson } from '#core/exchange/csv/person.ts';
import { BYTE_ORDER_MARK } from '#core/exchange/csv/write.ts';
import { heldOf } from '#core/exchange/person.ts';
import { demoBoard } from '../../../demo/day.ts';

const start = demoBoard('2026-05-12');
const hanna = { ...start.barn.riders['r1']!, id: 'hanna7', callName: 'Hanna' };
const board = {
  ...start,
  barn: withRecords(start.barn, [{ table: 'riders', record: hanna }], []),
};
const other = { table: 'riders', record: board.barn.riders['r2']! } as const;
const entries: Entry[] = [
  {
    seq: 1,
    at: board.day.lessons['l1']!.start,
    id: 'op1',
    device: 'd1',
    by: 'c1',
    tappedAt: 0,
    facts: [
      {
        kind: 'recordsImported',
        name: 'riders.csv',
        put: [other, { table: 'riders', record: hanna }],
        gone: [],
      },
    ],
    why: null,
  },
];
const days = [{ date: '2026-05-12', day: board.day, entries }];

test('of a list only what names the person', () => {
  const text = JSON.stringify(heldOf(board, 'riders', 'hanna7', days));
  expect(text).toContain('"callName":"Hanna"');
  expect(text).not.toContain(other.record.callName);
  const ofRider = heldOf(board, 'riders', 'r1', days);
  expect(ofRider.weekly.flatMap(({ places }) => places).every(({ rider }) => rider === 'r1')).toBe(true);
  expect(ofRider.days[0]?.lessons.map(({ id }) => id)).toEqual(['l1']);
});

test.each([
  ['riders', 'r1', ['Record', 'Weekly lesson', 'Lesson']],
  ['volunteers', 'v1', ['Record', 'Weekly lesson', 'Weekly shift', 'Lesson', 'Presence']],
  ['staff', 'i1', ['Record', 'Weekly lesson', 'Lesson']],
] as const)('a table a spreadsheet reads: %s', (table, id, parts) => {
  const text = writePerson(heldOf(board, table, id, days), board.barn, id);
  const read = readTable(text.slice(BYTE_ORDER_MARK.length));
  if (!('rows' in read)) throw new Error(JSON.stringify(read));
  expect(read.headings).toEqual(['Part', 'Date', 'From', 'Until', 'What', 'Details']);
  expect(new Set(read.rows.map(({ cells }) => cells[0]))).toEqual(new Set(parts));
  expect(read.rows.every(({ cells }) => cells.length === 6)).toBe(true);
  const lesson = read.rows.find(({ cells }) => cells[0] === 'Lesson')?.cells;
  const as = { riders: 'rider: Bramble', volunteers: 'leader: Bramble', staff: 'instructor' }[table];
  expect(lesson).toEqual(['Lesson', '2026-05-12', '14:00', '14:30', 'First steps', as]);
});
