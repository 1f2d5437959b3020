/** What each table's form asks for, in its order. The schemas in `src/barn` say what is allowed. */
import type { Barn, Table } from '#core/barn/barn.ts';
import { CLEARANCES, STAGES } from '#core/barn/stage.ts';
import { say } from '../../words.ts';
import { valueAt, withValue } from '#core/barn/atPath.ts';
import { type Draft } from './draft.ts';

export type Option = { readonly value: string | number; readonly label: string };

/** The object a field is part of: made when the field is given; `none`: what stands there while nothing of it is. */
export type Owner = { readonly path: string; readonly blank: Draft; readonly none: null | undefined };

type Kind =
  | { readonly kind: 'text'; readonly long?: boolean; readonly optional?: boolean }
  | {
      readonly kind: 'number';
      readonly unit: string;
      readonly step?: number;
      readonly owner?: Owner;
    }
  /** `after`: what another choice changes besides itself. */
  | {
      readonly kind: 'choice';
      readonly options: readonly Option[];
      readonly after?: (draft: Draft, today: string) => Draft;
    }
  | { readonly kind: 'several'; readonly options: readonly Option[] }
  /** One record of another table; null: none. */
  | { readonly kind: 'one'; readonly table: PickTable; readonly required?: boolean }
  | { readonly kind: 'many'; readonly table: PickTable; readonly most: number }
  /** A tack list of the horse at `horse`. */
  | { readonly kind: 'tack'; readonly horse: string }
  | { readonly kind: 'yesNo'; readonly owner?: Owner }
  | {
      readonly kind: 'date';
      readonly optional?: boolean;
      readonly nullable?: boolean;
      readonly owner?: Owner;
    }
  | { readonly kind: 'time' }
  | { readonly kind: 'photo' }
  | { readonly kind: 'lines' };

type List = {
  readonly kind: 'list';
  readonly of: readonly PlainField[];
  readonly blank: (id: string) => Draft;
  readonly most: number;
};

type Named = {
  readonly path: string;
  readonly label: string;
  readonly when?: (draft: Draft) => boolean;
};

/** A field of one value. */
export type PlainField = Kind & Named;
/** A field of several records, each with fields of its own. */
export type ListField = List & Named;
export type Field = PlainField | ListField;
/** A field that is typed into. */
export type TypedField = Extract<PlainField, { kind: 'text' | 'number' | 'lines' | 'date' | 'time' }>;
/** A field of a few buttons. */
export type ButtonField = Extract<PlainField, { kind: 'choice' | 'several' | 'yesNo' | 'tack' }>;

export type PickTable =
  'stalls' | 'horses' | 'volunteers' | 'riders' | 'arenas' | 'staff' | 'terms' | 'pattern';

/** Tables in the order of the screen. */
export const RECORD_TABLES = [
  'horses',
  'volunteers',
  'riders',
  'staff',
  'arenas',
  'stalls',
  'helmets',
  'pattern',
  'planned',
  'terms',
  'exceptions',
  'shifts',
] as const satisfies readonly Table[];

export function fieldsOf(table: Table): readonly Field[] {
  const F = say.RECORD_FIELD;
  const name: Field = { kind: 'text', path: 'name', label: F.name };
  switch (table) {
    case 'horses':
      return [
        name,
        { kind: 'one', table: 'stalls', path: 'stall', label: F.stall, required: true },
        ...(['LF', 'LH', 'RF', 'RH'] as const).map((foot): Field => ({
          kind: 'choice',
          path: `feet.${foot}`,
          label: say.RECORD_FOOT[foot],
          options: options(say.RECORD_SHOD),
        })),
        { kind: 'list', path: 'tackLists', label: F.tackLists, of: tackFields(), blank: blankTack, most: 12 },
        { kind: 'number', path: 'private.weight.kg', label: F.weight, unit: 'kg', owner: WEIGHT },
        {
          kind: 'choice',
          path: 'private.weight.how',
          label: F.how,
          options: options(say.RECORD_HOW),
          when: (draft) => valueAt(draft, 'private.weight.kg') !== undefined,
        },
        { kind: 'yesNo', path: 'private.pony', label: F.pony },
        { kind: 'number', path: 'private.condition', label: F.condition, unit: '1–9' },
        { kind: 'number', path: 'private.loadLimit.kg', label: F.loadLimit, unit: 'kg', owner: LOAD },
        {
          kind: 'several',
          path: 'experiencedFor',
          label: F.experiencedFor,
          options: pairs(STAGES, say.STAGE_WORK),
        },
        { kind: 'date', path: 'farrierOn', label: F.farrierOn, optional: true },
        { kind: 'text', path: 'kit', label: F.kit, optional: true },
        {
          kind: 'list',
          path: 'cautions',
          label: F.cautions,
          of: cautionFields(),
          blank: blankCaution,
          most: 8,
        },
        { kind: 'text', path: 'notes', label: F.notes, long: true },
        { kind: 'photo', path: 'photo', label: F.photo },
      ];
    case 'volunteers':
      return [
        name,
        {
          kind: 'several',
          path: 'clearances',
          label: F.clearances,
          options: pairs(CLEARANCES, say.CLEARANCE_WORD),
        },
        { kind: 'yesNo', path: 'private.minor', label: F.minor },
        { kind: 'number', path: 'private.pace', label: F.pace, unit: '×', step: 0.05 },
      ];
    case 'riders':
      return [
        { kind: 'text', path: 'callName', label: F.callName },
        { kind: 'text', path: 'private.fullName', label: F.fullName },
        { kind: 'number', path: 'private.weightKg', label: F.riderWeight, unit: 'kg', step: 0.1 },
        { kind: 'yesNo', path: 'private.balanced', label: F.balanced },
        { kind: 'many', table: 'horses', path: 'private.approvedHorses', label: F.approvedHorses, most: 200 },
        { kind: 'many', table: 'horses', path: 'private.notWithHorses', label: F.notWithHorses, most: 200 },
        { kind: 'date', path: 'private.helmet.boughtOn', label: F.ownHelmet, nullable: true, owner: HELMET },
        { kind: 'yesNo', path: 'private.helmet.knocked', label: F.knocked, owner: HELMET },
        { kind: 'text', path: 'private.needs', label: F.needs, long: true },
      ];
    case 'staff':
      return [name, { kind: 'choice', path: 'role', label: F.role, options: options(say.RECORD_ROLE) }];
    case 'arenas':
      return [name];
    case 'stalls':
      return [name, { kind: 'number', path: 'metres', label: F.metres, unit: 'm', step: 0.1 }];
    case 'helmets':
      return [
        name,
        { kind: 'date', path: 'boughtOn', label: F.boughtOn, nullable: true },
        { kind: 'yesNo', path: 'knocked', label: F.knocked },
      ];
    case 'pattern':
      return [name, weekday('weekday'), ...lessonFields(), termField('term'), placesField()];
    case 'planned':
      return [name, { kind: 'date', path: 'date', label: F.date }, ...lessonFields(), placesField()];
    case 'terms':
      return [
        name,
        { kind: 'date', path: 'from', label: F.firstDate },
        { kind: 'date', path: 'until', label: F.lastDate },
      ];
    case 'exceptions':
      return exceptionFields();
    case 'shifts':
      return shiftFields();
  }
}

function lessonFields(): Field[] {
  const F = say.RECORD_FIELD;
  return [
    { kind: 'time', path: 'time', label: F.time },
    { kind: 'number', path: 'minutes', label: F.minutes, unit: 'min' },
    { kind: 'one', table: 'arenas', path: 'arena', label: F.arena },
    { kind: 'one', table: 'staff', path: 'instructor', label: F.instructor },
  ];
}

function placesField(): Field {
  const F = say.RECORD_FIELD;
  return {
    kind: 'list',
    path: 'places',
    label: F.places,
    most: 12,
    blank: (id) => ({ id, rider: null, horse: null, tack: null, leader: null, sideWalkers: [] }),
    of: [
      { kind: 'one', table: 'riders', path: 'rider', label: F.rider },
      { kind: 'one', table: 'horses', path: 'horse', label: F.horse },
      { kind: 'tack', horse: 'horse', path: 'tack', label: F.tack },
      { kind: 'one', table: 'volunteers', path: 'leader', label: F.leader },
      { kind: 'many', table: 'volunteers', path: 'sideWalkers', label: F.sideWalkers, most: 2 },
    ],
  };
}

function exceptionFields(): Field[] {
  const F = say.RECORD_FIELD;
  const is = (what: string) => (draft: Draft) => draft['what'] === what;
  const isLesson = (draft: Draft): boolean => draft['what'] !== 'closed';
  return [
    { kind: 'choice', path: 'what', label: F.what, options: options(say.RECORD_WHAT), after: asException },
    { kind: 'one', table: 'pattern', path: 'lesson', label: F.lesson, required: true, when: isLesson },
    { kind: 'date', path: 'date', label: F.insteadOf, when: isLesson },
    { kind: 'date', path: 'toDate', label: F.toDate, when: is('moved') },
    { kind: 'time', path: 'toTime', label: F.toTime, when: is('moved') },
    { kind: 'date', path: 'from', label: F.firstDate, when: is('closed') },
    { kind: 'date', path: 'until', label: F.lastDate, when: is('closed') },
    { kind: 'text', path: 'why', label: F.why },
  ];
}

function shiftFields(): Field[] {
  const F = say.RECORD_FIELD;
  const is = (every: string) => (draft: Draft) => valueAt(draft, 'on.every') === every;
  return [
    { kind: 'one', table: 'volunteers', path: 'volunteer', label: F.volunteer, required: true },
    { kind: 'choice', path: 'on.every', label: F.comes, options: options(say.RECORD_EVERY), after: asShift },
    { ...weekday('on.weekday'), when: is('week') },
    { ...termField('on.term'), when: is('week') },
    { kind: 'date', path: 'on.date', label: F.date, when: is('once') },
    { kind: 'time', path: 'from', label: F.from },
    { kind: 'time', path: 'until', label: F.until },
  ];
}

const WEIGHT = { path: 'private.weight', blank: { how: 'scale' }, none: null };
const HELMET = { path: 'private.helmet', blank: { boughtOn: null, knocked: false }, none: undefined };
const LOAD = { path: 'private.loadLimit', blank: { of: 'kg' }, none: null };

function tackFields(): PlainField[] {
  const F = say.RECORD_FIELD;
  return [
    { kind: 'text', path: 'name', label: F.name },
    { kind: 'lines', path: 'items', label: F.items },
    { kind: 'number', path: 'kg', label: F.tackKg, unit: 'kg', step: 0.1 },
    { kind: 'photo', path: 'photo', label: F.photo },
  ];
}

function cautionFields(): PlainField[] {
  const F = say.RECORD_FIELD;
  return [
    { kind: 'choice', path: 'signal', label: F.signal, options: options(say.RECORD_SIGNAL) },
    { kind: 'text', path: 'text', label: F.caution },
  ];
}

const blankTack = (id: string): Draft => ({ id, name: '', items: [], kg: null });
const blankCaution = (): Draft => ({ signal: 'CAUTION', text: '' });

function weekday(path: string): Field {
  const all = say.RECORD_WEEKDAY.map((label, i) => ({ value: i + 1, label }));
  return { kind: 'choice', path, label: say.RECORD_FIELD.weekday, options: all };
}

function termField(path: string): Field {
  return { kind: 'one', table: 'terms', path, label: say.RECORD_FIELD.term };
}

function options(words: Readonly<Record<string, string>>): Option[] {
  return Object.entries(words).map(([value, label]) => ({ value, label }));
}

function pairs<T extends string>(values: readonly T[], words: Readonly<Record<T, string>>): Option[] {
  return values.map((value) => ({ value, label: words[value] }));
}

/** A new record as its form begins. `today`: ISO 8601. */
export function blankOf(table: Table, id: string, barn: Barn, today: string): Draft {
  const lesson = {
    id,
    name: '',
    time: '',
    minutes: 45,
    arena: only(barn.arenas),
    instructor: null,
    places: [],
  };
  switch (table) {
    case 'horses':
      return {
        id,
        name: '',
        stall: null,
        feet: { LF: 'barefoot', LH: 'barefoot', RF: 'barefoot', RH: 'barefoot' },
        tackLists: [],
        experiencedFor: [],
        notes: '',
        cautions: [],
        holds: [],
        private: { weight: null, pony: false, condition: null, loadLimit: null },
      };
    case 'volunteers':
      return { id, name: '', clearances: [], private: { pace: 1, usualHours: [] } };
    case 'riders':
      return {
        id,
        callName: '',
        private: {
          fullName: '',
          weightKg: null,
          balanced: false,
          needs: '',
          approvedHorses: [],
          notWithHorses: [],
        },
      };
    case 'staff':
      return { id, name: '', role: 'instructor' };
    case 'arenas':
      return { id, name: '' };
    case 'stalls':
      // A row of stalls: the next one stands as far on as a stall of 12 ft is wide. Common practice, no source.
      return { id, name: '', metres: Math.min(500, Math.round(Object.keys(barn.stalls).length * 37) / 10) };
    case 'helmets':
      return { id, name: '', boughtOn: null, knocked: false };
    case 'pattern':
      return { ...lesson, weekday: 1, term: null };
    case 'planned':
      return { ...lesson, date: today };
    case 'terms':
      return { id, name: '', from: today, until: '' };
    case 'exceptions':
      return { id, what: 'closed', from: today, until: today, why: '' };
    case 'shifts':
      return { id, volunteer: null, on: { every: 'week', weekday: 1, term: null }, from: '', until: '' };
  }
}

/** The one record there is; null: none, or several to choose from. */
function only(records: Readonly<Record<string, unknown>>): string | null {
  const [id, ...others] = Object.keys(records);
  return others.length === 0 ? (id ?? null) : null;
}

/** A record as its form shows it: with every field the form asks for. */
export function draftOf(table: Table, record: Draft, barn: Barn, today: string): Draft {
  const blank = blankOf(table, String(record['id']), barn, today);
  if (blank['private'] === undefined) return record;
  return {
    ...record,
    private: { ...(blank['private'] as Draft), ...(record['private'] as Draft | undefined) },
  };
}

/** Another kind of exception asks for other things. */
function asException({ id, what, why = '', lesson = null, date }: Draft, today: string): Draft {
  if (what === 'closed') return { id, what, from: today, until: today, why };
  const moved = what === 'moved' ? { toDate: today, toTime: '' } : {};
  return { id, what, lesson, date: date ?? today, why, ...moved };
}

function asShift(draft: Draft, today: string): Draft {
  const every = valueAt(draft, 'on.every');
  return { ...draft, on: every === 'once' ? { every, date: today } : { every, weekday: 1, term: null } };
}

/** The draft with the field at `path` set as in `next`, and what that changes besides. */
export function afterChange(table: Table, before: Draft, next: Draft, path: string, today: string): Draft {
  const field = fieldsOf(table).find((one) => one.path === path);
  if (field?.kind !== 'choice' || !field.after) return next;
  // The choice that stood already: what was written beside it stays.
  return valueAt(before, path) === valueAt(next, path) ? next : field.after(next, today);
}

/** The draft with `field` set to `value`; the object it is part of comes with its first value and goes with its last. */
export function changed(draft: Draft, field: Field, value: unknown): Draft {
  if (!('owner' in field) || !field.owner) return withValue(draft, field.path, value);
  const { path, blank, none } = field.owner;
  const whole = { ...blank, ...(valueAt(draft, path) as Draft | null | undefined) };
  const next = withValue(withValue(draft, path, whole), field.path, value);
  const isEmpty = field.kind === 'number' ? value === null : sameAs(valueAt(next, path), blank);
  return isEmpty ? withValue(draft, path, none) : next;
}

function sameAs(value: unknown, blank: Draft): boolean {
  return Object.entries(blank).every(([name, one]) => valueAt(value, name) === one);
}
