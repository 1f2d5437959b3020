/** Rows of volunteers and riders to records. */
import { CLEARANCES } from '../../barn/stage.ts';
import { own } from '../../barn/basics.ts';
import type { UsualHours } from '../../barn/people.ts';
import type * as z from 'zod/mini';
import { said } from '../problem.ts';
import { timeOf } from './cells.ts';
import { FULL_NAME_SIGNS, idOf, NAME_SIGNS, namedText, WORDS_SIGNS, type Import } from './import.ts';
import type { RowReader } from './row.ts';

type Hours = z.infer<typeof UsualHours>;

/** As the records allow. */
const PACE = [0.25, 4] as const;
const MOST_HOURS = 21;
const RIDER_KG = [1, 250] as const;

export function readVolunteer(row: RowReader, into: Import): void {
  const name = row.needed('name', NAME_SIGNS);
  const id = idOf(row, into, 'volunteers', name);
  if (id === null || name === undefined) return;
  const was = own(into.barn.volunteers, id);
  into.gathered.add(
    'volunteers',
    {
      ...was,
      id,
      name,
      clearances: row.words('cleared', CLEARANCES) ?? was?.clearances ?? [],
      private: {
        ...was?.private,
        pace: row.figure('pace', ...PACE) ?? was?.private?.pace ?? 1,
        usualHours: hoursOf(row) ?? was?.private?.usualHours ?? [],
      },
    },
    (field) => row.at(field),
  );
}

export function readRider(row: RowReader, into: Import): void {
  const name = row.needed('name', NAME_SIGNS);
  const id = idOf(row, into, 'riders', name);
  if (id === null || name === undefined) return;
  const was = own(into.barn.riders, id);
  const horses = (key: string): string[] | undefined =>
    row.list(key)?.flatMap((text) => namedText(row, into, key, 'horses', text) ?? []);
  into.gathered.add(
    'riders',
    {
      ...was,
      id,
      callName: name,
      private: {
        ...was?.private,
        fullName: row.text('fullName', FULL_NAME_SIGNS) ?? was?.private?.fullName ?? '',
        weightKg: row.kilograms('weight', ...RIDER_KG) ?? was?.private?.weightKg ?? null,
        balanced: row.yesNo('balanced') ?? was?.private?.balanced ?? false,
        needs: row.text('needs', WORDS_SIGNS) ?? was?.private?.needs ?? '',
        approvedHorses: horses('approved') ?? was?.private?.approvedHorses ?? [],
        notWithHorses: horses('notWith') ?? was?.private?.notWithHorses ?? [],
      },
    },
    (field) => row.at(field),
  );
}

/** The first two letters tell the days apart in English, the first three in Spanish too. ISO weekday numbers. */
const WEEKDAYS: readonly (readonly [RegExp, number])[] = [
  [/^(mo|lu)/, 1],
  [/^(tu|ma)/, 2],
  [/^(we|mi)/, 3],
  [/^(th|ju)/, 4],
  [/^(fr|vi)/, 5],
  [/^(sat?|sá|sabado)/, 6],
  [/^(su|do)/, 7],
];

const SPAN = /^(\p{L}{2,})\.?\s+(.+?)\s*(?:-|–|to|a)\s*(.+)$/u;

/** `Mon 09:00-12:00; Sat 1 pm - 5 pm`. */
function hoursOf(row: RowReader): Hours[] | undefined {
  const cells = row.list('hours');
  if (cells === undefined) return undefined;
  if (cells.length > MOST_HOURS) {
    row.problem('hours', { code: 'tooManyOf', most: MOST_HOURS });
    return undefined;
  }
  return cells.flatMap((text): Hours[] => {
    const [, day = '', from = '', until = ''] = SPAN.exec(text) ?? [];
    const weekday = WEEKDAYS.find(([sign]) => sign.test(day.toLowerCase()))?.[1];
    const [start, end] = [timeOf(from), timeOf(until)];
    if (weekday !== undefined && 'value' in start && 'value' in end && start.value < end.value) {
      return [{ weekday, from: minuteOf(start.value), until: minuteOf(end.value) }];
    }
    row.problem('hours', { code: 'notHours', text: said(text) });
    return [];
  });
}

/** Minutes after midnight of `HH:mm`. */
function minuteOf(time: string): number {
  return Number(time.slice(0, 2)) * 60 + Number(time.slice(3));
}
