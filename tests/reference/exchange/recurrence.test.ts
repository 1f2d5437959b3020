/**
 * When something takes place, held to the expansions printed in RFC 5545 section 3.8.5.3 (its examples start at 09:00 in
 * New York), and to the IANA time zone database where two zones change their clocks in different weeks.
 */
import { describe, expect, test } from 'vitest';
import { emptyBarn } from '#core/barn/barn.ts';
import { eventsIn } from '#core/exchange/calendar/events.ts';
import { isComponents, readComponents } from '#core/exchange/calendar/lines.ts';
import { occurrences } from '#core/exchange/calendar/occurrences.ts';
import { previewCalendar } from '#core/exchange/calendar/preview.ts';
import { sourceOfAll } from '../source.ts';

sourceOfAll('RFC 5545, section 3.8.5.3', 'IANA time zone database');

const ZONE = 'America/New_York';

const calendar = (...lines: string[]): string =>
  [
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    'PRODID:-//test//EN',
    'BEGIN:VEVENT',
    'UID:one@example.org',
    'DTSTAMP:19970101T000000Z',
    'SUMMARY:Lesson',
    'DURATION:PT45M',
    ...lines,
    'END:VEVENT',
    'END:VCALENDAR',
    '',
  ].join('\r\n');

/** `1997: 9-2 9-4` of the occurrences up to `until`. */
const dates = (until: string, ...lines: string[]): string[] => {
  const components = readComponents(calendar(...lines));
  const problems: never[] = [];
  if (!isComponents(components)) throw new Error(JSON.stringify(components));
  const [event] = eventsIn(components, ZONE, problems);
  expect(problems).toEqual([]);
  const found = occurrences(event!, until, ZONE);
  expect(new Set(found?.times.map(({ at }) => at.time))).toEqual(new Set(['09:00']));
  return found!.times.map(({ at }) => at.date);
};

/** Days of one month, written out. */
const of = (month: string, ...days: number[]): string[] =>
  days.map((day) => `${month}-${String(day).padStart(2, '0')}`);

const SEPTEMBER_2 = `DTSTART;TZID=${ZONE}:19970902T090000`;

describe('RFC 5545 section 3.8.5.3', () => {
  test.each([
    [
      'daily for 10 occurrences',
      [SEPTEMBER_2, 'RRULE:FREQ=DAILY;COUNT=10'],
      of('1997-09', 2, 3, 4, 5, 6, 7, 8, 9, 10, 11),
    ],
    [
      'every 10 days, 5 occurrences',
      [SEPTEMBER_2, 'RRULE:FREQ=DAILY;INTERVAL=10;COUNT=5'],
      [...of('1997-09', 2, 12, 22), ...of('1997-10', 2, 12)],
    ],
    [
      'weekly for 10 occurrences',
      [SEPTEMBER_2, 'RRULE:FREQ=WEEKLY;COUNT=10'],
      [...of('1997-09', 2, 9, 16, 23, 30), ...of('1997-10', 7, 14, 21, 28), ...of('1997-11', 4)],
    ],
    [
      'weekly on Tuesday and Thursday for five weeks, by an end in UTC',
      [SEPTEMBER_2, 'RRULE:FREQ=WEEKLY;UNTIL=19971007T000000Z;WKST=SU;BYDAY=TU,TH'],
      [...of('1997-09', 2, 4, 9, 11, 16, 18, 23, 25, 30), ...of('1997-10', 2)],
    ],
    [
      'every other week on Monday, Wednesday and Friday until December 24',
      [
        `DTSTART;TZID=${ZONE}:19970901T090000`,
        'RRULE:FREQ=WEEKLY;INTERVAL=2;UNTIL=19971224T000000Z;WKST=SU;BYDAY=MO,WE,FR',
      ],
      [
        ...of('1997-09', 1, 3, 5, 15, 17, 19, 29),
        ...of('1997-10', 1, 3, 13, 15, 17, 27, 29, 31),
        ...of('1997-11', 10, 12, 14, 24, 26, 28),
        ...of('1997-12', 8, 10, 12, 22),
      ],
    ],
    [
      'monthly on the first Friday for 10 occurrences',
      [`DTSTART;TZID=${ZONE}:19970905T090000`, 'RRULE:FREQ=MONTHLY;COUNT=10;BYDAY=1FR'],
      [
        '1997-09-05',
        '1997-10-03',
        '1997-11-07',
        '1997-12-05',
        '1998-01-02',
        '1998-02-06',
        '1998-03-06',
        '1998-04-03',
        '1998-05-01',
        '1998-06-05',
      ],
    ],
    [
      'every other month on the first and last Sunday',
      [`DTSTART;TZID=${ZONE}:19970907T090000`, 'RRULE:FREQ=MONTHLY;INTERVAL=2;COUNT=10;BYDAY=1SU,-1SU'],
      [
        ...of('1997-09', 7, 28),
        ...of('1997-11', 2, 30),
        ...of('1998-01', 4, 25),
        ...of('1998-03', 1, 29),
        ...of('1998-05', 3, 31),
      ],
    ],
    [
      'monthly on the second-to-last Monday',
      [`DTSTART;TZID=${ZONE}:19970922T090000`, 'RRULE:FREQ=MONTHLY;COUNT=6;BYDAY=-2MO'],
      ['1997-09-22', '1997-10-20', '1997-11-17', '1997-12-22', '1998-01-19', '1998-02-16'],
    ],
    [
      'monthly on the 2nd and 15th',
      [SEPTEMBER_2, 'RRULE:FREQ=MONTHLY;COUNT=10;BYMONTHDAY=2,15'],
      ['09', '10', '11', '12'].flatMap((month) => of(`1997-${month}`, 2, 15)).concat(of('1998-01', 2, 15)),
    ],
    [
      'a date that does not exist is skipped',
      [`DTSTART;TZID=${ZONE}:20070115T090000`, 'RRULE:FREQ=MONTHLY;BYMONTHDAY=15,30;COUNT=5'],
      ['2007-01-15', '2007-01-30', '2007-02-15', '2007-03-15', '2007-03-30'],
    ],
    [
      'the week begins on Monday',
      [`DTSTART;TZID=${ZONE}:19970805T090000`, 'RRULE:FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=MO'],
      of('1997-08', 5, 10, 19, 24),
    ],
    [
      'the week begins on Sunday',
      [`DTSTART;TZID=${ZONE}:19970805T090000`, 'RRULE:FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=SU'],
      of('1997-08', 5, 17, 19, 31),
    ],
  ])('%s', (_name, lines, expected) => {
    expect(dates('2010-01-01', ...lines)).toEqual(expected);
  });

  test('daily until December 24: 113 times, the last on the 23rd', () => {
    const found = dates('2010-01-01', SEPTEMBER_2, 'RRULE:FREQ=DAILY;UNTIL=19971224T000000Z');
    // 29 days of September, 31, 30 and 23.
    expect(found).toHaveLength(29 + 31 + 30 + 23);
    expect(found.at(-1)).toBe('1997-12-23');
  });

  test('the third-to-last day of the month, without an end', () => {
    expect(
      dates('1998-02-28', `DTSTART;TZID=${ZONE}:19970928T090000`, 'RRULE:FREQ=MONTHLY;BYMONTHDAY=-3'),
    ).toEqual(['1997-09-28', '1997-10-29', '1997-11-28', '1997-12-29', '1998-01-29', '1998-02-26']);
  });
});

describe('on the barn’s wall', () => {
  const barn = emptyBarn('Barn', 'Europe/Berlin');
  const id = (): string => 'new';
  const look = (...lines: string[]): ReturnType<typeof previewCalendar> =>
    previewCalendar(calendar(...lines), barn, '2026-01-01', 'lessons', id);
  const planned = (...lines: string[]): string[] =>
    look(...lines).put.flatMap((one) =>
      one.table === 'planned' ? `${one.record.date} ${one.record.time}` : [],
    );

  // IANA tzdb: Berlin leaves summer time on 2026-10-25, New York on 2026-11-01; between them they are 5 h apart.
  const EXPECTED = ['2026-10-20 15:00', '2026-10-27 14:00', '2026-11-03 15:00'];
  const WEEKS = 'RRULE:FREQ=WEEKLY;COUNT=3';

  test('a zone the file only names follows its own clock changes', () => {
    expect(planned(`DTSTART;TZID=${ZONE}:20261020T090000`, WEEKS)).toEqual(EXPECTED);
  });

  test('a zone the file describes is taken as it describes it', () => {
    // New York's rules since 2007 (U.S. Energy Policy Act of 2005), under a name of the file's own.
    const described = [
      'BEGIN:VTIMEZONE',
      'TZID:Head office',
      'BEGIN:DAYLIGHT',
      'DTSTART:20070311T020000',
      'RRULE:FREQ=YEARLY;BYMONTH=3;BYDAY=2SU',
      'TZOFFSETFROM:-0500',
      'TZOFFSETTO:-0400',
      'END:DAYLIGHT',
      'BEGIN:STANDARD',
      'DTSTART:20071104T020000',
      'RRULE:FREQ=YEARLY;BYMONTH=11;BYDAY=1SU',
      'TZOFFSETFROM:-0400',
      'TZOFFSETTO:-0500',
      'END:STANDARD',
      'END:VTIMEZONE',
    ].join('\r\n');
    const text = calendar('DTSTART;TZID="Head office":20261020T090000', WEEKS).replace(
      'BEGIN:VEVENT',
      `${described}\r\nBEGIN:VEVENT`,
    );
    const { put, problems } = previewCalendar(text, barn, '2026-01-01', 'lessons', id);
    expect(problems).toEqual([]);
    expect(
      put.flatMap((one) => (one.table === 'planned' ? `${one.record.date} ${one.record.time}` : [])),
    ).toEqual(EXPECTED);
  });

  test('UTC', () => {
    // Berlin is UTC+2 in summer, UTC+1 in winter.
    expect(planned('DTSTART:20261020T130000Z', WEEKS)).toEqual([
      '2026-10-20 15:00',
      '2026-10-27 14:00',
      '2026-11-03 14:00',
    ]);
  });

  test('floating is the clock on the wall, and stays there every week: a weekly lesson with its term', () => {
    const { put } = look('DTSTART:20261020T150000', WEEKS);
    expect(put).toEqual([
      { table: 'terms', record: expect.objectContaining({ from: '2026-10-20', until: '2026-11-03' }) },
      { table: 'pattern', record: expect.objectContaining({ time: '15:00', weekday: 2, minutes: 45 }) },
    ]);
  });

  test('a week that is left out, and one that stands elsewhere', () => {
    const change = [
      'BEGIN:VEVENT',
      'UID:one@example.org',
      'SUMMARY:Lesson',
      'RECURRENCE-ID:20261103T150000',
      'DTSTART:20261104T160000',
      'DURATION:PT45M',
      'END:VEVENT',
    ].join('\r\n');
    const text = calendar('DTSTART:20261020T150000', 'RRULE:FREQ=WEEKLY', 'EXDATE:20261027T150000').replace(
      'END:VCALENDAR',
      `${change}\r\nEND:VCALENDAR`,
    );
    const { put, problems } = previewCalendar(text, barn, '2026-10-20', 'lessons', id);
    expect(problems).toEqual([]);
    expect(put.map(({ table }) => table).sort()).toEqual(['exceptions', 'exceptions', 'pattern', 'planned']);
    expect(put.flatMap((one) => (one.table === 'exceptions' ? one.record : []))).toEqual([
      expect.objectContaining({ what: 'cancelled', date: '2026-10-27' }),
      expect.objectContaining({ what: 'cancelled', date: '2026-11-03' }),
    ]);
    expect(
      put.flatMap((one) => (one.table === 'planned' ? `${one.record.date} ${one.record.time}` : [])),
    ).toEqual(['2026-11-04 16:00']);
  });

  test('what is past is left out', () => {
    expect(planned('DTSTART:20251231T100000')).toEqual([]);
    expect(planned('DTSTART:20260101T100000')).toEqual(['2026-01-01 10:00']);
  });
});
