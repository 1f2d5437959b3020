/** One row of a table, read cell by cell. What is wrong with a cell is kept with where it stands. */
import { said, type CellAt, type Problem, type What } from '../problem.ts';
import { kgFromPounds } from '../../care/units.ts';
import { dateOf, listOf, numberOf, textOf, timeOf, yesNoOf, type Cell, type DateOrder } from './cells.ts';
import type { Mapping } from './columns.ts';
import type { Row } from './table.ts';

/** What a person has said where the file may mean two things. */
export type Answers = { readonly order: DateOrder | null; readonly weight: 'kg' | 'lb' | null };

/** Kept weights are whole to this, in kg: a pound and back must not drift. */
const KG_STEP = 0.01;

/** Each reader answers undefined for a column that is not there, an empty cell (both change nothing) and a bad one. */
export class RowReader {
  readonly number: number;
  readonly #cells: readonly string[];
  readonly #mapping: Mapping;
  readonly #answers: Answers;
  readonly #problems: Problem[];

  constructor(row: Row, mapping: Mapping, answers: Answers, problems: Problem[]) {
    this.number = row.number;
    this.#cells = row.cells;
    this.#mapping = mapping;
    this.#answers = answers;
    this.#problems = problems;
  }

  /** Where this column's cell stands; the row itself when the file has no such column. */
  at(key: string): CellAt | { readonly in: 'row'; readonly row: number } {
    const found = this.#mapping.columns.get(key);
    if (!found) return { in: 'row', row: this.number };
    return { in: 'cell', row: this.number, column: found.index + 1, title: found.heading };
  }

  problem(key: string, what: What): void {
    this.#problems.push({ at: this.at(key), what });
  }

  raw(key: string): string | undefined {
    const found = this.#mapping.columns.get(key);
    const cell = found && textOf(this.#cells[found.index] ?? '');
    return cell === '' ? undefined : cell;
  }

  /** `most`: signs it may have. */
  text(key: string, most: number): string | undefined {
    const text = this.raw(key);
    if (text === undefined || text.length <= most) return text;
    this.problem(key, { code: 'tooManySigns', most });
    return undefined;
  }

  /** As `text`, and a problem when it is not there. */
  needed(key: string, most: number): string | undefined {
    if (this.raw(key) === undefined) this.problem(key, { code: 'needed' });
    return this.text(key, most);
  }

  figure(key: string, low: number, high: number): number | undefined {
    return this.#read(key, (text) => numberOf(text, low, high));
  }

  whole(key: string, low: number, high: number): number | undefined {
    return this.#read(key, (text) => {
      const cell = numberOf(text, low, high);
      return 'value' in cell && !Number.isInteger(cell.value)
        ? { what: { code: 'notNumber', text: said(text) } }
        : cell;
    });
  }

  /** Kilograms, from the heading's unit or the answer. `low` and `high` in kg. */
  kilograms(key: string, low: number, high: number): number | undefined {
    const unit = this.#mapping.columns.get(key)?.unit ?? this.#answers.weight ?? 'kg';
    if (unit === 'kg') return this.figure(key, low, high);
    const pounds = this.figure(key, kgToPounds(low), kgToPounds(high));
    return pounds === undefined ? undefined : Math.round(kgFromPounds(pounds) / KG_STEP) * KG_STEP;
  }

  yesNo(key: string): boolean | undefined {
    return this.#read(key, yesNoOf);
  }

  date(key: string): string | undefined {
    return this.#read(key, (text) => dateOf(text, this.#answers.order ?? 'dmy'));
  }

  time(key: string): string | undefined {
    return this.#read(key, timeOf);
  }

  oneOf<T extends string>(key: string, of: readonly T[]): T | undefined {
    return this.#read(key, (text) => wordOf(text, of));
  }

  /** A list of words out of `of`. */
  words<T extends string>(key: string, of: readonly T[]): T[] | undefined {
    const cell = this.raw(key);
    if (cell === undefined) return undefined;
    const found: T[] = [];
    for (const text of cell.split(/[;,\n]/)) {
      if (text.trim() === '') continue;
      const word = wordOf(text.trim(), of);
      if ('what' in word) this.problem(key, word.what);
      else if (!found.includes(word.value)) found.push(word.value);
    }
    return found;
  }

  list(key: string): string[] | undefined {
    const cell = this.raw(key);
    return cell === undefined ? undefined : listOf(cell);
  }

  #read<T>(key: string, read: (text: string) => Cell<T>): T | undefined {
    const text = this.raw(key);
    if (text === undefined) return undefined;
    const cell = read(text);
    if ('value' in cell) return cell.value;
    this.problem(key, cell.what);
    return undefined;
  }
}

/** Whole pounds that lie within a limit in kg. */
function kgToPounds(kg: number): number {
  return Math.round(kg / kgFromPounds(1));
}

function wordOf<T extends string>(text: string, of: readonly T[]): Cell<T> {
  const plain = (word: string): string => word.toLowerCase().replaceAll(/[\s_-]+/g, ' ');
  const value = of.find((one) => plain(one) === plain(text));
  return value === undefined ? { what: { code: 'notOneOf', text: said(text), of } } : { value };
}
