/** Rows of horses to records: the stall by its name, the feet that are shod, tack lists in one cell. */
import type { Horse, TackList } from '../../barn/horse.ts';
import { STAGES } from '../../barn/stage.ts';
import { own } from '../../barn/basics.ts';
import { said } from '../problem.ts';
import { numberOf } from './cells.ts';
import { idOf, NAME_SIGNS, WORDS_SIGNS, type Import } from './import.ts';
import type { RowReader } from './row.ts';

const FEET = ['LF', 'LH', 'RF', 'RH'] as const;
type Feet = Horse['feet'];

/** What people say of the shoes of a whole horse. */
const ALL_FEET: Readonly<Record<string, readonly (typeof FEET)[number][]>> = {
  all: FEET,
  none: [],
  barefoot: [],
  front: ['LF', 'RF'],
  hind: ['LH', 'RH'],
};

/** Outside these a weight is a slip of the finger; as in the records. */
const HORSE_KG = [30, 1500] as const;
/** A stall more down the aisle: 12 ft. Common practice, no source. */
const STALL_METRES = 3.7;
const MOST_METRES = 500;
const MOST_LISTS = 12;
const MOST_ITEMS = 20;
const MOST_TACK_KG = 60;

export function readHorse(row: RowReader, into: Import): void {
  const name = row.needed('name', NAME_SIGNS);
  const id = idOf(row, into, 'horses', name);
  if (id === null || name === undefined) return;
  const was = own(into.barn.horses, id);
  const stall = stallOf(row, into) ?? was?.stall;
  if (stall === undefined) return row.problem('stall', { code: 'needed' });
  const kg = row.kilograms('weight', ...HORSE_KG);
  const how = row.oneOf('weighedBy', ['scale', 'tape']) ?? was?.private?.weight?.how ?? 'tape';
  const weight = kg === undefined ? (was?.private?.weight ?? null) : { kg, how };
  into.gathered.add(
    'horses',
    {
      ...was,
      id,
      name,
      stall,
      feet: feetOf(row) ?? was?.feet ?? feetFrom([]),
      tackLists: tackOf(row, was?.tackLists ?? [], into.newId) ?? was?.tackLists ?? [],
      experiencedFor: row.words('experienced', STAGES) ?? was?.experiencedFor ?? [],
      notes: row.text('notes', WORDS_SIGNS) ?? was?.notes ?? '',
      cautions: was?.cautions ?? [],
      holds: was?.holds ?? [],
      private: {
        loadLimit: null,
        ...was?.private,
        weight,
        pony: row.yesNo('pony') ?? was?.private?.pony ?? false,
        condition: row.whole('condition', 1, 9) ?? was?.private?.condition ?? null,
      },
    },
    (field) => row.at(field),
  );
}

/** A stall the barn does not know yet is added at the end of the aisle. */
function stallOf(row: RowReader, into: Import): string | undefined {
  const name = row.text('stall', NAME_SIGNS);
  if (name === undefined) return undefined;
  const found = into.names.stalls.find(name);
  if (found === 'several') {
    row.problem('stall', { code: 'nameTwice', text: said(name), table: 'stalls' });
    return undefined;
  }
  if (found !== 'none') return found.id;
  const id = into.newId();
  const metres = Math.min(MOST_METRES, Math.round(into.stallCount() * STALL_METRES * 10) / 10);
  into.names.stalls.add(id, name);
  into.gathered.add('stalls', { id, name, metres }, () => row.at('stall'));
  return id;
}

function feetOf(row: RowReader): Feet | undefined {
  const cell = row.raw('shod');
  const all = cell === undefined ? undefined : own(ALL_FEET, cell.toLowerCase());
  const shod = all ?? row.words('shod', FEET);
  return shod && feetFrom(shod);
}

function feetFrom(shod: readonly string[]): Feet {
  const foot = (one: string): 'shod' | 'barefoot' => (shod.includes(one) ? 'shod' : 'barefoot');
  return { LF: foot('LF'), LH: foot('LH'), RF: foot('RF'), RH: foot('RH') };
}

const LIST = /^([^:[\]]+?)\s*(?:\[\s*([\d.,]+)\s*kg\s*\])?\s*(?::(.*))?$/;

/** `English [9 kg]: pad | saddle | girth; Surcingle: pad | surcingle`. A list of the same name keeps its id. */
function tackOf(row: RowReader, was: readonly TackList[], newId: () => string): TackList[] | undefined {
  const cells = row.list('tack');
  if (cells === undefined) return undefined;
  if (cells.length > MOST_LISTS) {
    row.problem('tack', { code: 'tooManyOf', most: MOST_LISTS });
    return undefined;
  }
  return cells.flatMap((text): TackList[] => {
    const [, name = '', weight, rest = ''] = LIST.exec(text) ?? [];
    const items = rest
      .split('|')
      .map((item) => item.trim())
      .filter((item) => item !== '');
    const kg = weight === undefined ? null : numberOf(weight, 0, MOST_TACK_KG);
    if (kg !== null && 'what' in kg) row.problem('tack', kg.what);
    else if (name === '' || [name, ...items].some((one) => one.length > NAME_SIGNS)) {
      row.problem('tack', { code: 'tooManySigns', most: NAME_SIGNS });
    } else if (items.length > MOST_ITEMS) row.problem('tack', { code: 'tooManyOf', most: MOST_ITEMS });
    else {
      const known = was.find((list) => list.name.toLowerCase() === name.toLowerCase());
      return [{ ...known, id: known?.id ?? newId(), name, items, kg: kg?.value ?? known?.kg ?? null }];
    }
    return [];
  });
}
