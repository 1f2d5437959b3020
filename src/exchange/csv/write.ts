/** Tables out, in this program's own headings: RFC 4180, with a byte order mark so that a spreadsheet takes it for UTF-8. */
import Papa from 'papaparse';
import type { Barn } from '../../barn/barn.ts';
import { own } from '../../barn/basics.ts';
import type { PlannedLesson, PlannedPlace } from '../../barn/book.ts';
import type { Horse, TackList } from '../../barn/horse.ts';
import type { Rider, Volunteer } from '../../barn/people.ts';
import { COLUMNS, type Kind, type KeyOf } from './columns.ts';

export const BYTE_ORDER_MARK = '\ufeff';

/** What a spreadsheet takes for the beginning of a formula. The library's own mark misses cells with line breaks. A number below zero is none. */
const FORMULA = /^(?!-\d+(\.\d+)?$)'*[=+\-@\t\r]/;

type Cells<K extends Kind> = { readonly [C in KeyOf<K>]?: string };

/** All records of a kind; of lessons those planned from the date `from` on. Rows end with CRLF. */
export function writeTable(kind: Kind, barn: Barn, from = '0000-01-01'): string {
  const rows = rowsOf(kind, barn, from);
  const columns = COLUMNS[kind];
  const cells = rows.map((row) => columns.map(({ key }) => row[key] ?? ''));
  return writeCells([columns.map(({ title }) => title), ...cells]);
}

/** Any rows of cells as such a file. What a spreadsheet would take for a formula is marked as text. */
export function writeCells(rows: readonly (readonly string[])[]): string {
  const safe = rows.map((cells) => cells.map((cell) => (FORMULA.test(cell) ? `'${cell}` : cell)));
  const text = Papa.unparse(safe, { delimiter: ',', newline: '\r\n' });
  return `${BYTE_ORDER_MARK}${text}\r\n`;
}

function rowsOf(kind: Kind, barn: Barn, from: string): readonly Readonly<Record<string, string>>[] {
  switch (kind) {
    case 'horses':
      return Object.values(barn.horses).map((horse) => horseRow(horse, barn));
    case 'volunteers':
      return Object.values(barn.volunteers).map(volunteerRow);
    case 'riders':
      return Object.values(barn.riders).map((rider) => riderRow(rider, barn));
    case 'lessons':
      return Object.values(barn.book.planned)
        .filter(({ date }) => date >= from)
        .sort((a, b) => (`${a.date}${a.time}${a.id}` < `${b.date}${b.time}${b.id}` ? -1 : 1))
        .flatMap((lesson) => lessonRows(lesson, barn));
  }
}

const yesNo = (is: boolean): string => (is ? 'yes' : 'no');
const figure = (value: number | null | undefined): string =>
  value === null || value === undefined ? '' : String(value);

function horseRow(horse: Horse, barn: Barn): Cells<'horses'> & Record<string, string> {
  const shod = Object.entries(horse.feet).flatMap(([foot, care]) => (care === 'shod' ? foot : []));
  const { weight, pony, condition } = horse.private ?? { weight: null, pony: false, condition: null };
  return {
    id: horse.id,
    name: horse.name,
    stall: own(barn.stalls, horse.stall)?.name ?? '',
    shod: shod.length === 0 ? 'none' : shod.join('; '),
    weight: figure(weight?.kg),
    weighedBy: weight?.how ?? '',
    pony: yesNo(pony),
    condition: figure(condition),
    experienced: horse.experiencedFor.join('; '),
    tack: horse.tackLists.map(tackText).join('; '),
    notes: horse.notes,
  };
}

function tackText({ name, items, kg }: TackList): string {
  const weight = kg === null ? '' : ` [${kg} kg]`;
  return items.length === 0 ? `${name}${weight}` : `${name}${weight}: ${items.join(' | ')}`;
}

/** As tables name them; ISO 8601 weekday 1 first. */
export const WEEKDAYS = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'] as const;

function volunteerRow({ id, name, clearances, private: kept }: Volunteer): Record<string, string> {
  const clock = (minutes: number): string => {
    const two = (n: number): string => String(n).padStart(2, '0');
    return `${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
  };
  const hours = (kept?.usualHours ?? []).map(
    ({ weekday, from, until }) => `${WEEKDAYS[weekday - 1] ?? ''} ${clock(from)}-${clock(until)}`,
  );
  return { id, name, cleared: clearances.join('; '), pace: figure(kept?.pace), hours: hours.join('; ') };
}

function riderRow({ id, callName, private: kept }: Rider, barn: Barn): Record<string, string> {
  const horses = (ids: readonly string[] = []): string =>
    ids.map((horse) => own(barn.horses, horse)?.name ?? horse).join('; ');
  return {
    id,
    name: callName,
    fullName: kept?.fullName ?? '',
    weight: figure(kept?.weightKg),
    balanced: yesNo(kept?.balanced ?? false),
    needs: kept?.needs ?? '',
    approved: horses(kept?.approvedHorses),
    notWith: horses(kept?.notWithHorses),
  };
}

function lessonRows(lesson: PlannedLesson, barn: Barn): Record<string, string>[] {
  const head = {
    id: lesson.id,
    date: lesson.date,
    start: lesson.time,
    minutes: String(lesson.minutes),
    name: lesson.name,
    arena: own(barn.arenas, lesson.arena ?? '')?.name ?? '',
    instructor: own(barn.staff, lesson.instructor ?? '')?.name ?? '',
  };
  if (lesson.places.length === 0) return [head];
  return lesson.places.map((place) => ({ ...head, ...placeCells(place, barn) }));
}

function placeCells(place: PlannedPlace, barn: Barn): Record<string, string> {
  const horse = own(barn.horses, place.horse ?? '');
  const person = (id: string | null): string => own(barn.volunteers, id ?? '')?.name ?? '';
  return {
    rider: own(barn.riders, place.rider ?? '')?.callName ?? '',
    horse: horse?.name ?? '',
    tack: horse?.tackLists.find(({ id }) => id === place.tack)?.name ?? '',
    leader: person(place.leader),
    sideWalkers: place.sideWalkers
      .map(person)
      .filter((name) => name !== '')
      .join('; '),
  };
}
