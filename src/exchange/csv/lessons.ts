/**
 * Rows of lessons to the book's planned lessons. A row is one place; rows of one lesson follow by its id, or by date, start
 * and name, and say the same of the lesson itself.
 */
import { own } from '../../barn/basics.ts';
import type { PlannedLesson, PlannedPlace } from '../../barn/book.ts';
import { said } from '../problem.ts';
import { plainName } from '../names.ts';
import { givenId, named, NAME_SIGNS, namedText, type Import } from './import.ts';
import type { RowReader } from './row.ts';

/** As the records allow. */
const MINUTES = [5, 240] as const;
const MOST_PLACES = 12;
const MOST_SIDE_WALKERS = 2;

type Head = Omit<PlannedLesson, 'id' | 'places'>;
type Draft = {
  readonly id: string;
  readonly head: Head;
  readonly row: RowReader;
  readonly places: PlannedPlace[];
};

/** Lessons of a file while its rows come in; `finish` puts them among what was gathered. */
export class Lessons {
  readonly #into: Import;
  readonly #drafts = new Map<string, Draft>();
  readonly #known: ReadonlyMap<string, PlannedLesson>;

  constructor(into: Import) {
    this.#into = into;
    this.#known = new Map(Object.values(into.barn.book.planned).map((lesson) => [keyOf(lesson), lesson]));
  }

  read(row: RowReader): void {
    const head = this.#head(row);
    const given = givenId(row, this.#into, 'planned');
    if (!head || given === null) return;
    const key = given ?? keyOf(head);
    const id = given ?? this.#known.get(key)?.id;
    const draft = this.#drafts.get(key);
    if (!draft) {
      const first = { id: id ?? this.#into.newId(), head, row, places: [] };
      this.#drafts.set(key, first);
      return this.#place(row, first);
    }
    const other = (['date', 'time', 'minutes', 'name', 'arena', 'instructor'] as const).find(
      (field) => draft.head[field] !== head[field],
    );
    if (other)
      row.problem(other === 'time' ? 'start' : other, { code: 'otherThanRow', row: draft.row.number });
    else this.#place(row, draft);
  }

  finish(): void {
    for (const { id, head, row, places } of this.#drafts.values()) {
      const was = own(this.#into.barn.book.planned, id);
      this.#into.gathered.add('planned', { ...was, id, ...head, places }, (field) =>
        row.at(field === 'time' ? 'start' : field),
      );
    }
  }

  #head(row: RowReader): Head | null {
    const name = row.needed('name', NAME_SIGNS);
    row.needed('date', NAME_SIGNS);
    row.needed('start', NAME_SIGNS);
    const date = row.date('date');
    const time = row.time('start');
    const minutes = lengthOf(row, time);
    const arena = this.#added(row, 'arena', 'arenas');
    const instructor = this.#added(row, 'instructor', 'staff');
    if (name === undefined || date === undefined || time === undefined || minutes === undefined) return null;
    return { name, date, time, minutes, arena, instructor };
  }

  /** An arena or an instructor that the barn does not know yet is added. */
  #added(row: RowReader, key: string, table: 'arenas' | 'staff'): string | null {
    const name = row.text(key, NAME_SIGNS);
    if (name === undefined) return null;
    const found = this.#into.names[table].find(name);
    if (typeof found === 'object') return found.id;
    if (found === 'several') {
      row.problem(key, { code: 'nameTwice', text: said(name), table });
      return null;
    }
    const id = this.#into.newId();
    this.#into.names[table].add(id, name);
    const record = table === 'staff' ? { id, name, role: 'instructor' } : { id, name };
    this.#into.gathered.add(table, record, () => row.at(key));
    return id;
  }

  #place(row: RowReader, draft: Draft): void {
    const into = this.#into;
    const rider = named(row, into, 'rider', 'riders');
    const horse = named(row, into, 'horse', 'horses');
    const leader = named(row, into, 'leader', 'volunteers');
    const walkers = row.list('sideWalkers');
    const sideWalkers = walkers?.flatMap(
      (text) => namedText(row, into, 'sideWalkers', 'volunteers', text) ?? [],
    );
    if ([rider, horse, leader, sideWalkers].every((one) => one === undefined)) return;
    if (draft.places.length === MOST_PLACES)
      return row.problem('rider', { code: 'tooManyOf', most: MOST_PLACES });
    if ((sideWalkers?.length ?? 0) > MOST_SIDE_WALKERS) {
      return row.problem('sideWalkers', { code: 'tooManyOf', most: MOST_SIDE_WALKERS });
    }
    if (typeof horse === 'string' && draft.places.some((place) => place.horse === horse)) {
      return row.problem('horse', { code: 'horseTwice', text: said(row.raw('horse') ?? '') });
    }
    draft.places.push({
      id: `p${draft.places.length + 1}`,
      rider: rider ?? null,
      horse: horse ?? null,
      tack: this.#tack(
        row,
        horse ?? null,
        own(into.barn.book.planned, draft.id)?.places[draft.places.length],
      ),
      leader: leader ?? null,
      sideWalkers: sideWalkers ?? [],
    });
  }

  /** The horse's list of that name; when none is named, as it was with this horse, or its only one. */
  #tack(row: RowReader, horse: string | null, was: PlannedPlace | undefined): string | null {
    const lists = own(this.#into.barn.horses, horse ?? '')?.tackLists ?? [];
    const text = row.raw('tack');
    if (text === undefined && was && was.horse === horse) return was.tack;
    if (text === undefined) return lists.length === 1 ? (lists[0]?.id ?? null) : null;
    const found = lists.find(({ id, name }) => id === text || plainName(name) === plainName(text));
    if (!found)
      row.problem('tack', { code: 'notOneOf', text: said(text), of: lists.map(({ name }) => name) });
    return found?.id ?? null;
  }
}

/** What makes two rows the same lesson where no id does. */
function keyOf({ date, time, name }: Pick<Head, 'date' | 'time' | 'name'>): string {
  return `${date} ${time} ${plainName(name)}`;
}

/** From its own column, or from start to end. Minutes. */
function lengthOf(row: RowReader, start: string | undefined): number | undefined {
  if (row.raw('minutes') !== undefined) return row.whole('minutes', ...MINUTES);
  const end = row.time('end');
  if (end === undefined || start === undefined) {
    if (row.raw('end') === undefined) row.problem('minutes', { code: 'needed' });
    return undefined;
  }
  const minuteOf = (time: string): number => Number(time.slice(0, 2)) * 60 + Number(time.slice(3));
  const minutes = minuteOf(end) - minuteOf(start);
  const [low, high] = MINUTES;
  if (minutes >= low && minutes <= high) return minutes;
  row.problem('end', { code: 'badLength', minutes, low, high });
  return undefined;
}
