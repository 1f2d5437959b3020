/** What goes out comes in again the same, read by outside readers (papaparse, ical.js) and by this program. */
import fc from 'fast-check';
import ICAL from 'ical.js';
import Papa from 'papaparse';
import { describe, expect, test } from 'vitest';
import { emptyBarn } from '#core/barn/barn.ts';
import { previewCalendar } from '#core/exchange/calendar/preview.ts';
import { writeCalendar, type FeedEvent } from '#core/exchange/calendar/write.ts';
import { KINDS } from '#core/exchange/csv/columns.ts';
import { NO_ANSWERS, previewTable } from '#core/exchange/csv/preview.ts';
import { readTable, SEPARATORS } from '#core/exchange/csv/table.ts';
import { BYTE_ORDER_MARK, writeCells, writeTable } from '#core/exchange/csv/write.ts';
import { barnWithAll, hardText } from './exchange-arbitraries.ts';

let last = 0;
const id = (): string => `new${(last += 1)}`;

describe('tables', () => {
  test('of every kind say the same when they come back', () => {
    fc.assert(
      fc.property(barnWithAll, (barn) => {
        for (const kind of KINDS) {
          const text = writeTable(kind, barn).slice(BYTE_ORDER_MARK.length);
          const { problems, questions, put, counts, unused } = previewTable(text, barn, NO_ANSWERS, id);
          expect({ kind, problems, questions, put, unused }).toEqual({
            kind,
            problems: [],
            questions: [],
            put: [],
            unused: [],
          });
          const table = kind === 'lessons' ? 'planned' : kind;
          const of = table === 'planned' ? Object.keys(barn.book.planned).length : 2;
          expect(counts[table]).toEqual({ fresh: 0, changed: 0, same: of });
        }
      }),
      { numRuns: 60 },
    );
  });

  test('fill an empty barn with the same records, but for what no table holds', () => {
    fc.assert(
      fc.property(barnWithAll, (barn) => {
        let next = emptyBarn(barn.name, barn.zone);
        for (const kind of KINDS) {
          const { problems, put } = previewTable(writeTable(kind, barn).slice(1), next, NO_ANSWERS, id);
          expect(problems).toEqual([]);
          for (const { table, record } of put) {
            next =
              table === 'planned'
                ? { ...next, book: { ...next.book, planned: { ...next.book.planned, [record.id]: record } } }
                : { ...next, [table]: { ...next[table as 'horses'], [record.id]: record } };
          }
        }
        for (const kind of KINDS) expect(writeTable(kind, next)).toBe(writeTable(kind, barn));
      }),
      { numRuns: 40 },
    );
  });

  test('are read by an outside reader as they were written', () => {
    const row = fc.tuple(hardText, hardText, hardText);
    fc.assert(
      fc.property(fc.array(row, { minLength: 1, maxLength: 8 }), (rows) => {
        const { data, errors } = Papa.parse(writeCells(rows).slice(BYTE_ORDER_MARK.length), {
          delimiter: ',',
          newline: '\r\n',
          quoteChar: '"',
        });
        // The line break after the last row makes one more row of one empty cell.
        expect(errors).toEqual([]);
        expect(data.slice(0, -1)).toEqual(
          rows.map((cells) => cells.map((cell) => (/^'*[=+\-@\t\r]/.test(cell) ? `'${cell}` : cell))),
        );
      }),
    );
  });

  test('are read as an outside writer has written them, whatever parts cells and rows', () => {
    const filled = hardText.map((text) => `x${text}`);
    fc.assert(
      fc.property(
        fc.array(fc.tuple(filled, filled, filled), { minLength: 1, maxLength: 8 }),
        fc.constantFrom(...SEPARATORS),
        fc.constantFrom('\r\n', '\n', '\r'),
        (rows, delimiter, newline) => {
          const text = Papa.unparse([['one', 'two', 'three'], ...rows], { delimiter, newline });
          const table = readTable(text);
          expect(table).toMatchObject({ separator: delimiter, headings: ['one', 'two', 'three'] });
          expect('rows' in table && table.rows.map(({ cells }) => cells)).toEqual(rows);
        },
      ),
    );
  });
});

const BASE = Date.UTC(2026, 2, 28);
const event = (n: number): fc.Arbitrary<FeedEvent> =>
  fc.record({
    uid: fc.constant(`e${n}@example.org`),
    start: fc.integer({ min: 0, max: 500_000 }).map((minutes) => BASE + minutes * 60_000),
    end: fc.constant(0),
    summary: hardText.map((text) => `S${n}${text}z`.replaceAll(/\s+/g, ' ').slice(0, 40)),
    location: fc.constantFrom('', 'Indoor; by the “long” side, left'),
    description: hardText.map((text) => text.trim()),
    category: fc.constantFrom('LESSON' as const, 'SHIFT' as const),
    isCancelled: fc.boolean(),
  });
const feed = fc
  .tuple(event(0), event(1), event(2))
  .map((events) => events.map((one, i): FeedEvent => ({ ...one, end: one.start + (30 + i) * 60_000 })));

describe('calendars', () => {
  const write = (events: readonly FeedEvent[]): string =>
    writeCalendar('Barn', events, () => ({ sequence: 3, stamp: BASE }));

  test('have lines of 75 octets at most, ended by CRLF (RFC 5545 section 3.1)', () => {
    fc.assert(
      fc.property(feed, (events) => {
        const text = write(events);
        expect(text.endsWith('END:VCALENDAR\r\n')).toBe(true);
        expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
        for (const line of text.split('\r\n')) expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
      }),
    );
  });

  test('are read by an outside reader as they were meant', () => {
    fc.assert(
      fc.property(feed, (events) => {
        const read = new ICAL.Component(ICAL.parse(write(events)))
          .getAllSubcomponents('vevent')
          .map((one) => {
            const { uid, summary, location, description, startDate, endDate, sequence } = new ICAL.Event(one);
            return {
              uid,
              summary,
              location: location ?? '',
              description: description ?? '',
              start: startDate.toUnixTime() * 1000,
              end: endDate.toUnixTime() * 1000,
              sequence,
              isCancelled: one.getFirstPropertyValue('status') === 'CANCELLED',
            };
          });
        expect(read).toEqual(events.map(({ category: _category, ...one }) => ({ ...one, sequence: 3 })));
      }),
    );
  });

  test('come in again at the same instants, on the barn’s wall', () => {
    const barn = emptyBarn('Barn', 'America/Denver');
    fc.assert(
      fc.property(feed, (events) => {
        const shown = events
          .filter(({ isCancelled }) => !isCancelled)
          .map((one) => ({ ...one, description: '' }));
        fc.pre(shown.length > 0);
        const { problems, put } = previewCalendar(write(shown), barn, '2026-03-01', 'lessons', id);
        expect(problems).toEqual([]);
        const wall = new Intl.DateTimeFormat('sv-SE', {
          timeZone: barn.zone,
          dateStyle: 'short',
          timeStyle: 'short',
        });
        expect(
          put.flatMap((one) =>
            one.table === 'planned'
              ? [[one.record.name, `${one.record.date} ${one.record.time}`, one.record.minutes]]
              : [],
          ),
        ).toEqual(
          shown.map(({ summary, start, end }) => [
            summary.trim(),
            wall.format(start),
            (end - start) / 60_000,
          ]),
        );
      }),
      // In the hour that comes twice: 01:30 for the second time, until 02:00.
      {
        examples: [
          [
            [
              {
                uid: 'e0@example.org',
                start: Date.UTC(2026, 10, 1, 8, 30),
                end: Date.UTC(2026, 10, 1, 9, 0),
                summary: 'S0z',
                location: '',
                description: '',
                category: 'LESSON',
                isCancelled: false,
              },
            ],
          ],
        ],
      },
    );
  });
});
