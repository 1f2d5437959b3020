/** What is held of a person as one table: a row for each thing, so that a spreadsheet can sort and filter it. */
import type { Barn } from '../../barn/barn.ts';
import { own } from '../../barn/basics.ts';
import type { PatternLesson, PlannedLesson } from '../../barn/book.ts';
import type { Lesson } from '../../barn/lesson.ts';
import { lessonEnd } from '../../day/preps.ts';
import { wallTimeAt } from '../../time/zone.ts';
import type { Held, HeldDay } from '../person.ts';
import { WEEKDAYS, writeCells } from './write.ts';

/** In this program's own words, as in its other tables. */
const TITLES = ['Part', 'Date', 'From', 'Until', 'What', 'Details'] as const;
type Row = readonly [part: string, date: string, from: string, until: string, what: string, details: string];

/** The table of what is held of the person `id`. Times are the barn's wall time. */
export function writePerson(held: Held, barn: Barn, id: string): string {
  const weekday = (day: number): string => WEEKDAYS[day - 1] ?? '';
  const rows: Row[] = [
    ...leaves(held.record).map(([path, value]): Row => ['Record', '', '', '', path, value]),
    ...held.weekly.map((one) => plannedRow('Weekly lesson', weekday(one.weekday), one, barn, id)),
    ...held.planned.map((one) => plannedRow('Planned lesson', one.date, one, barn, id)),
    ...held.shifts.map(({ on, from, until }): Row => {
      const date = on.every === 'once' ? on.date : weekday(on.weekday);
      return [on.every === 'once' ? 'Shift' : 'Weekly shift', date, from, until, '', ''];
    }),
    ...held.days.flatMap((day) => dayRows(day, barn, id)),
  ];
  return writeCells([TITLES, ...rows]);
}

function plannedRow(
  part: string,
  date: string,
  lesson: PatternLesson | PlannedLesson,
  barn: Barn,
  id: string,
): Row {
  return [part, date, lesson.time, '', lesson.name, rolesIn(lesson, barn, id)];
}

function dayRows({ date, lessons, here, entries }: HeldDay, barn: Barn, id: string): Row[] {
  const wall = (at: number | null | undefined): string =>
    at === null || at === undefined ? '' : wallTimeAt(at, barn.zone).time;
  const presence = here?.presence;
  return [
    ...lessons.map((lesson): Row => {
      const state = lesson.cancelled ? ' (cancelled)' : '';
      const roles = `${rolesIn(lesson, barn, id)}${state}`;
      return ['Lesson', date, wall(lesson.start), wall(lessonEnd(lesson)), lesson.name, roles];
    }),
    ...(presence
      ? [['Presence', date, wall(presence.from), wall(presence.until), presence.state, ''] as const]
      : []),
    ...entries.flatMap(({ at, by, facts }) =>
      facts.map(({ kind, ...fact }): Row => {
        const details = JSON.stringify(fact);
        return [by === id ? 'Tapped' : 'Written down', date, wall(at), '', kind, details];
      }),
    ),
  ];
}

/** As what the person is in it, and with which horse. */
function rolesIn(
  lesson: Pick<Lesson | PlannedLesson, 'instructor' | 'places'>,
  barn: Barn,
  id: string,
): string {
  const roles = lesson.places.flatMap((place) => {
    const on = own(barn.horses, place.horse ?? '')?.name ?? '';
    const as = (role: string, is: boolean): string[] => (is ? [on === '' ? role : `${role}: ${on}`] : []);
    return [
      ...as('rider', place.rider === id),
      ...as('leader', place.leader === id),
      ...as('side-walker', place.sideWalkers.includes(id)),
    ];
  });
  return [...(lesson.instructor === id ? ['instructor'] : []), ...roles].join('; ');
}

/** Every single value of a record, with the way to it. */
function leaves(value: unknown, path = ''): (readonly [path: string, value: string])[] {
  if (value === null || value === undefined) return path === '' ? [] : [[path, '']];
  if (typeof value !== 'object') return [[path, typeof value === 'string' ? value : JSON.stringify(value)]];
  const inside = Object.entries(value);
  if (inside.length === 0) return [[path, '']];
  return inside.flatMap(([key, each]) => leaves(each, path === '' ? key : `${path}.${key}`));
}
