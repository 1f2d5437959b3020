/** What takes a file back leaves the records as they were. The rule is the project's own: common practice, no source. */
import { expect, test } from 'vitest';
import { withRecords } from '#core/barn/tables.ts';
import { importOf, takingBack } from '#core/exchange/facts.ts';
import { NOTHING_SAID, previewFile } from '#core/exchange/file.ts';
import { smallBoard } from '../../properties/day-arbitraries.ts';

const { barn } = smallBoard();
let last = 0;
const id = (): string => `new${(last += 1)}`;
const look = (name: string, text: string) =>
  previewFile({ name, text }, barn, '2026-04-01', NOTHING_SAID, id);

test('changed records are as they were, new ones are gone', () => {
  const { put, counts } = look('horses.csv', 'horse,stall,notes\r\nfern,,bites\r\nNutmeg,77,kind\r\n');
  expect(counts).toMatchObject({ horses: { fresh: 1, changed: 1 }, stalls: { fresh: 1 } });
  const fact = importOf('horses.csv', put);
  const after = withRecords(barn, fact.put, fact.gone);
  expect(after).not.toEqual(barn);
  const back = takingBack(fact, barn);
  expect(withRecords(after, back.put, back.gone)).toEqual(barn);
});

test('a calendar is known by its first line or its name', () => {
  expect(look('day.txt', 'BEGIN:VCALENDAR\r\nEND:VCALENDAR\r\n').what).toBe('calendar');
  expect(look('day.ics', 'horse\r\nfern\r\n').what).toBe('calendar');
  expect(look('day.csv', 'horse\r\nfern\r\n').what).toBe('table');
});
