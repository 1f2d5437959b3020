/**
 * People taken out of what is kept, with the counts left as they were: one person for good, or everybody from a day long
 * gone. What happened stays under an id that leads to nobody; records of the person and free words about them go.
 */
import type { Barn } from '../barn/barn.ts';
import { own } from '../barn/basics.ts';
import { CHANGE_REASONS } from '../barn/changeReasons.ts';

export const PEOPLE_TABLES = ['volunteers', 'riders', 'staff'] as const;
export type PeopleTable = (typeof PEOPLE_TABLES)[number];

/** Somebody to be taken out: from now on `as`, which is the id of nobody. */
export type Forgotten = { readonly id: string; readonly as: string; readonly names: readonly string[] };

/** In these stand words somebody typed. */
const WORD_KEYS: ReadonlySet<string> = new Set([
  'words',
  'word',
  'farrierWord',
  'why',
  'notes',
  'needs',
  'text',
]);

/** Of a lesson's change, `why` is one of these, and no free words. */
const NO_WORDS: ReadonlySet<string> = new Set(CHANGE_REASONS);

/** In these stand ids of people. */
const PERSON_KEYS: ReadonlySet<string> = new Set([
  'by',
  'volunteer',
  'rider',
  'leader',
  'sideWalkers',
  'instructor',
  'to',
  'in',
  'out',
]);

/** What takes the place of a name in somebody's words, and of words as a whole. */
const LEFT_OUT = '–';

/**
 * What `id` is called: its name and full name, and the first of each. One that somebody or something else bears too is left
 * alone, as it may mean them.
 */
export function namesOf(barn: Barn, table: PeopleTable, id: string): string[] {
  const full = table === 'riders' ? own(barn.riders, id)?.private?.fullName : undefined;
  const whole = [nameIn(barn, table, id) ?? '', full ?? ''];
  const names = new Set([...whole, ...whole.map((name) => name.trim().split(/\s+/)[0] ?? '')]);
  const others = new Set(
    [barn.volunteers, barn.staff, barn.horses].flatMap((records) =>
      Object.values(records).flatMap((one) => (one.id === id ? [] : one.name.toLowerCase())),
    ),
  );
  for (const one of Object.values(barn.riders)) if (one.id !== id) others.add(one.callName.toLowerCase());
  return [...names].filter((name) => name.length > 1 && !others.has(name.toLowerCase()));
}

/** How somebody is called on the coordinator's screens; null: no record has this id. */
export function nameIn(barn: Barn, table: PeopleTable, id: string): string | null {
  switch (table) {
    case 'riders':
      return own(barn.riders, id)?.callName ?? null;
    case 'volunteers':
      return own(barn.volunteers, id)?.name ?? null;
    case 'staff':
      return own(barn.staff, id)?.name ?? null;
  }
}

/** `value`, anything kept as JSON, without these people. */
export function withoutAll<T>(value: T, people: readonly Forgotten[]): T {
  return people.reduce((left, person) => withoutPerson(left, person), value);
}

/** `value`, anything kept as JSON, without this person. Doing it again changes nothing. */
export function withoutPerson<T>(value: T, { id, as, names }: Forgotten): T {
  const said = names.map(
    (name) => new RegExp(`(?<![\\p{L}\\p{N}])${escaped(name)}(?![\\p{L}\\p{N}])`, 'giu'),
  );
  const unsaid = (words: string): string => said.reduce((text, name) => text.replace(name, LEFT_OUT), words);
  const isTheirs = (one: unknown): boolean =>
    isObject(one) && (one['id'] === id || recordIn(one)?.['id'] === id);
  const step = (one: unknown, key: string): unknown => {
    if (one === id) return as;
    if (typeof one === 'string') return isWords(one, key) ? unsaid(one) : one;
    if (Array.isArray(one)) return one.filter((each) => !isTheirs(each)).map((each) => step(each, key));
    if (!isObject(one)) return one;
    return Object.fromEntries(
      Object.entries(one)
        .filter(([, each]) => !isTheirs(each))
        .map(([name, each]) => [name === id ? as : name, step(each, name)]),
    );
  };
  return step(value, '') as T;
}

/** A kept day, or anything of its shape, with nobody in it who could be told: everybody has a number of this day only. */
export function withoutPeople<T>(value: T): T {
  const numbers = new Map<string, string>();
  const number = (id: string): void => {
    if (!numbers.has(id)) numbers.set(id, `gone-${numbers.size + 1}`);
  };
  const isPersons = (one: unknown): boolean => {
    const table = isObject(one)
      ? (one['table'] ?? (isObject(one['saved']) ? one['saved']['table'] : null))
      : null;
    return table === 'volunteers' || table === 'riders' || table === 'staff';
  };
  const find = (one: unknown, key: string): void => {
    if (typeof one === 'string' && PERSON_KEYS.has(key)) number(one);
    else if (Array.isArray(one)) for (const each of one) find(each, key);
    else if (isObject(one) && !isPersons(one)) {
      if (key === 'hands') Object.keys(one).forEach(number);
      for (const [name, each] of Object.entries(one)) find(each, name);
    }
  };
  find(value, '');
  const step = (one: unknown, key: string): unknown => {
    if (typeof one === 'string')
      return isWords(one, key) && one !== '' ? LEFT_OUT : (numbers.get(one) ?? one);
    if (Array.isArray(one)) return one.filter((each) => !isPersons(each)).map((each) => step(each, key));
    if (!isObject(one)) return one;
    return Object.fromEntries(
      Object.entries(one).map(([name, each]) => [numbers.get(name) ?? name, step(each, name)]),
    );
  };
  return step(value, '') as T;
}

function isWords(text: string, key: string): boolean {
  return WORD_KEYS.has(key) && !NO_WORDS.has(text);
}

/** The record a fact or a row of a file brings. */
function recordIn(one: Readonly<Record<string, unknown>>): Readonly<Record<string, unknown>> | null {
  const { record, saved } = one;
  if (isObject(record)) return record;
  return isObject(saved) && isObject(saved['record']) ? saved['record'] : null;
}

function isObject(one: unknown): one is Readonly<Record<string, unknown>> {
  return typeof one === 'object' && one !== null && !Array.isArray(one);
}

function escaped(name: string): string {
  return name.replaceAll(/[.*+?^${}()|[\]\\]/g, '\\$&');
}
