/**
 * Who rides what, written in an event's description: a line a place, in the headings of the lessons' table:
 *
 *     Rider: Robin; Horse: Fern; Tack list: English; Leader: Ada; Side-walkers: Ben, Cho
 *     Instructor: Ines
 *
 * Any other line is somebody's note and is left alone.
 */
import { own } from '../../barn/basics.ts';
import type { PlannedPlace } from '../../barn/book.ts';
import { mapColumns } from '../csv/columns.ts';
import type { Import } from '../csv/import.ts';
import { plainName } from '../names.ts';
import { said, type NamedTable, type Problem, type What } from '../problem.ts';
import type { Event } from './events.ts';

const TABLE_OF: Readonly<Record<string, NamedTable>> = {
  rider: 'riders',
  horse: 'horses',
  leader: 'volunteers',
  sideWalkers: 'volunteers',
};

const MOST_PLACES = 12;
const MOST_SIDE_WALKERS = 2;

type Details = { readonly places: PlannedPlace[]; readonly instructor: string | null };

export function detailsOf(event: Event, into: Import, problems: Problem[]): Details {
  const places: PlannedPlace[] = [];
  let instructor: string | null = null;
  const problem = (what: What): void => {
    problems.push({ at: { in: 'line', line: event.descriptionLine, name: 'DESCRIPTION' }, what });
  };
  for (const line of event.description.split('\n')) {
    const fields = fieldsOf(line);
    const teacher = fields.get('instructor');
    if (teacher !== undefined) instructor = instructorOf(teacher, into, problem);
    const [rider, horse, leader] = (['rider', 'horse', 'leader'] as const).map((key) =>
      found(fields.get(key), TABLE_OF[key] ?? 'riders', into, problem),
    );
    const walkers = (fields.get('sideWalkers') ?? '').split(',').filter((name) => name.trim() !== '');
    const sideWalkers = walkers.flatMap((name) => found(name.trim(), 'volunteers', into, problem) ?? []);
    if (![rider, horse, leader].some((one) => one !== null) && sideWalkers.length === 0) continue;
    if (sideWalkers.length > MOST_SIDE_WALKERS) problem({ code: 'tooManyOf', most: MOST_SIDE_WALKERS });
    else if (places.length === MOST_PLACES) problem({ code: 'tooManyOf', most: MOST_PLACES });
    else if (horse && places.some((place) => place.horse === horse)) {
      problem({ code: 'horseTwice', text: said(fields.get('horse') ?? '') });
    } else {
      const tack = tackOf(fields.get('tack'), horse ?? null, into, problem);
      const id = `p${places.length + 1}`;
      places.push({
        id,
        rider: rider ?? null,
        horse: horse ?? null,
        tack,
        leader: leader ?? null,
        sideWalkers,
      });
    }
  }
  return { places, instructor };
}

/** What a line says, by the key of its column. */
function fieldsOf(line: string): ReadonlyMap<string, string> {
  const fields = new Map<string, string>();
  for (const part of line.split(';')) {
    const cut = part.indexOf(':');
    if (cut < 0) continue;
    const [key] = mapColumns('lessons', [part.slice(0, cut)]).mapping.columns.keys();
    const text = part.slice(cut + 1).trim();
    if (key !== undefined && text !== '') fields.set(key, text);
  }
  return fields;
}

function found(
  text: string | undefined,
  table: NamedTable,
  into: Import,
  problem: (what: What) => void,
): string | null {
  if (text === undefined) return null;
  const one = into.names[table].find(text);
  if (typeof one === 'object') return one.id;
  problem({ code: one === 'none' ? 'unknownName' : 'nameTwice', text: said(text), table });
  return null;
}

function instructorOf(text: string, into: Import, problem: (what: What) => void): string | null {
  const one = into.names.staff.find(text);
  if (one !== 'none') return found(text, 'staff', into, problem);
  const id = into.newId();
  into.names.staff.add(id, text);
  into.gathered.add('staff', { id, name: text, role: 'instructor' }, () => ({
    in: 'file',
  }));
  return id;
}

function tackOf(
  text: string | undefined,
  horse: string | null,
  into: Import,
  problem: (what: What) => void,
): string | null {
  const lists = own(into.barn.horses, horse ?? '')?.tackLists ?? [];
  if (text === undefined) return lists.length === 1 ? (lists[0]?.id ?? null) : null;
  const list = lists.find(({ id, name }) => id === text || plainName(name) === plainName(text));
  if (!list) problem({ code: 'notOneOf', text: said(text), of: lists.map(({ name }) => name) });
  return list?.id ?? null;
}
