/**
 * The columns of each kind of table: the heading this program writes, and what else it reads. Headings are compared
 * without case, accents, signs and a unit in brackets; the unit is read for itself.
 */
import type { Problem } from '../problem.ts';
import type { Table } from './table.ts';

export const KINDS = ['horses', 'volunteers', 'riders', 'lessons'] as const;
export type Kind = (typeof KINDS)[number];

export type Column = {
  readonly key: string;
  readonly title: string;
  readonly aliases: readonly string[];
  /** The table cannot be read without it. */
  readonly isNeeded?: true;
  /** A weight: kilograms or pounds, as its heading or the person says. */
  readonly isWeight?: true;
  readonly isDate?: true;
};

const ID: Column = { key: 'id', title: 'id', aliases: ['number', 'no', 'key', 'nummer', 'numero'] };
const NOTES: Column = {
  key: 'notes',
  title: 'notes',
  aliases: ['remarks', 'comment', 'comments', 'notas', 'bemerkung'],
};

/** Lists in one cell are parted by `;` or line breaks, and what belongs together by `|`. */
export const COLUMNS = {
  horses: [
    ID,
    {
      key: 'name',
      title: 'horse',
      aliases: ['name', 'horse name', 'caballo', 'nombre', 'pferd'],
      isNeeded: true,
    },
    { key: 'stall', title: 'stall', aliases: ['box', 'stable', 'loose box', 'cuadra', 'box number'] },
    { key: 'shod', title: 'shod feet', aliases: ['shod', 'shoes', 'feet', 'herrado'] },
    {
      key: 'weight',
      title: 'weight (kg)',
      aliases: ['weight', 'body weight', 'horse weight', 'peso', 'gewicht'],
      isWeight: true,
    },
    { key: 'weighedBy', title: 'weighed by', aliases: ['weight by', 'scale or tape'] },
    { key: 'pony', title: 'pony', aliases: ['is pony'] },
    {
      key: 'condition',
      title: 'condition (1-9)',
      aliases: ['condition', 'condition score', 'henneke', 'bcs', 'body condition'],
    },
    { key: 'experienced', title: 'experienced for', aliases: ['experienced people for'] },
    { key: 'tack', title: 'tack lists', aliases: ['tack', 'tack list', 'equipo'] },
    NOTES,
  ],
  volunteers: [
    ID,
    {
      key: 'name',
      title: 'volunteer',
      aliases: ['name', 'volunteer name', 'voluntario', 'nombre', 'helper'],
      isNeeded: true,
    },
    {
      key: 'cleared',
      title: 'cleared for',
      aliases: ['clearances', 'cleared', 'trained for', 'autorizado para'],
    },
    { key: 'pace', title: 'pace', aliases: ['time taken'] },
    { key: 'hours', title: 'usual hours', aliases: ['hours', 'availability', 'horario', 'available'] },
  ],
  riders: [
    ID,
    {
      key: 'name',
      title: 'rider',
      aliases: ['name', 'call name', 'called', 'jinete', 'nombre', 'first name'],
      isNeeded: true,
    },
    { key: 'fullName', title: 'full name', aliases: ['whole name', 'name in full', 'nombre completo'] },
    {
      key: 'weight',
      title: 'weight as ridden (kg)',
      aliases: ['weight', 'rider weight', 'weight as ridden', 'peso'],
      isWeight: true,
    },
    { key: 'balanced', title: 'balanced', aliases: ['sits balanced', 'balance'] },
    { key: 'needs', title: 'needs', aliases: ['support needed', 'necesidades'] },
    { key: 'approved', title: 'horses approved', aliases: ['approved horses', 'rides'] },
    { key: 'notWith', title: 'not with horses', aliases: ['horses not', 'never with'] },
  ],
  lessons: [
    ID,
    {
      key: 'date',
      title: 'date',
      aliases: ['day', 'lesson date', 'fecha', 'datum'],
      isNeeded: true,
      isDate: true,
    },
    {
      key: 'start',
      title: 'start',
      aliases: ['time', 'start time', 'from', 'begins', 'hora', 'beginn'],
      isNeeded: true,
    },
    { key: 'minutes', title: 'minutes', aliases: ['length', 'duration', 'minutos', 'dauer'] },
    { key: 'end', title: 'end', aliases: ['end time', 'until', 'ends', 'fin'] },
    {
      key: 'name',
      title: 'lesson',
      aliases: ['name', 'lesson name', 'title', 'clase', 'nombre'],
      isNeeded: true,
    },
    { key: 'arena', title: 'arena', aliases: ['ring', 'where', 'picadero'] },
    { key: 'instructor', title: 'instructor', aliases: ['teacher', 'taught by', 'instructora'] },
    { key: 'rider', title: 'rider', aliases: ['jinete', 'participant'] },
    { key: 'horse', title: 'horse', aliases: ['caballo', 'pferd'] },
    { key: 'tack', title: 'tack list', aliases: ['tack', 'equipo'] },
    { key: 'leader', title: 'leader', aliases: ['led by', 'horse leader'] },
    { key: 'sideWalkers', title: 'side-walkers', aliases: ['side walkers', 'side-walker', 'sidewalkers'] },
  ],
} as const satisfies { readonly [K in Kind]: readonly Column[] };

export type KeyOf<K extends Kind> = (typeof COLUMNS)[K][number]['key'];

export type MappedColumn = {
  readonly index: number;
  /** The file's own, without what stands in brackets. */
  readonly heading: string;
  readonly column: Column;
  readonly unit: 'kg' | 'lb' | null;
};

/** Which column of the file (from 0) holds what. */
export type Mapping = {
  readonly columns: ReadonlyMap<string, MappedColumn>;
  /** Headings that mean nothing to this kind of table. They are left out, and shown. */
  readonly unused: readonly string[];
};

/** A heading as it is compared. */
function plain(heading: string): string {
  return heading
    .replace(/\(.*?\)|\[.*?\]/g, ' ')
    .normalize('NFD')
    .replaceAll(/[\u0300-\u036f]/g, '')
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, ' ')
    .replace(/\b(kg|kgs|lb|lbs|pounds|kilos?)\b/g, ' ')
    .replaceAll(/\s+/g, ' ')
    .trim();
}

/** A heading without what stands in brackets after it. */
function bare(heading: string): string {
  return heading.replace(/\s*[([].*$/, '') || heading;
}

/** The unit a heading of a weight names; null when it names none. */
function unitIn(heading: string): 'kg' | 'lb' | null {
  if (/\b(kg|kgs|kilos?|kilograms?)\b/i.test(heading)) return 'kg';
  return /\b(lbs?|pounds?)\b/i.test(heading) ? 'lb' : null;
}

/** Where each column of `kind` stands in the file, and what is wrong with its headings. */
export function mapColumns(
  kind: Kind,
  headings: readonly string[],
): { mapping: Mapping; problems: Problem[] } {
  const columns = new Map<string, MappedColumn>();
  const problems: Problem[] = [];
  const unused: string[] = [];
  const all: readonly Column[] = COLUMNS[kind];
  headings.forEach((heading, index) => {
    if (heading === '') return;
    const name = plain(heading);
    const column =
      all.find(({ title }) => plain(title) === name) ??
      all.find(({ aliases }) => aliases.some((alias) => plain(alias) === name));
    if (!column) unused.push(heading);
    else if (columns.has(column.key)) {
      const at = { in: 'cell', row: 1, column: index + 1, title: bare(heading) } as const;
      problems.push({ at, what: { code: 'columnTwice', title: column.title } });
    } else {
      const unit = column.isWeight ? unitIn(heading) : null;
      columns.set(column.key, { index, heading: bare(heading), column, unit });
    }
  });
  for (const { key, title, isNeeded } of all) {
    if (isNeeded && !columns.has(key))
      problems.push({ at: { in: 'row', row: 1 }, what: { code: 'columnMissing', title } });
  }
  if (kind === 'lessons' && !columns.has('minutes') && !columns.has('end')) {
    problems.push({ at: { in: 'row', row: 1 }, what: { code: 'columnMissing', title: 'minutes' } });
  }
  return { mapping: { columns, unused }, problems };
}

/**
 * What kind of table these headings are, best first; empty when they are none. The kind whose own columns fill most of
 * the file wins; where two fit alike, as when there is only `name`, both are answered and a person says.
 */
export function kindsOf({ headings }: Pick<Table, 'headings'>): readonly Kind[] {
  const fits = KINDS.flatMap((kind) => {
    const { mapping, problems } = mapColumns(kind, headings);
    const isWhole = !problems.some(({ what }) => what.code === 'columnMissing');
    return isWhole ? [{ kind, known: mapping.columns.size }] : [];
  });
  const most = Math.max(0, ...fits.map(({ known }) => known));
  return fits.filter(({ known }) => known === most).map(({ kind }) => kind);
}

/** Kinds that share the most headings with the file though one that is needed is missing: to say which. */
export function nearestKind({ headings }: Pick<Table, 'headings'>): Kind | null {
  const known = KINDS.map((kind) => ({ kind, count: mapColumns(kind, headings).mapping.columns.size }));
  const best = known.reduce((a, b) => (b.count > a.count ? b : a));
  return best.count >= 2 ? best.kind : null;
}
