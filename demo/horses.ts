/** The invented barn's horses: where they stand, what is on their feet, their tack and what to mind. */
import type { Caution, Horse, Stall, TackList } from '#core/barn/horse.ts';
import type { Stage } from '#core/barn/stage.ts';

type Feet = Horse['feet'];

const SHOD: Feet = { LF: 'shod', LH: 'shod', RF: 'shod', RH: 'shod' };
const BAREFOOT: Feet = { LF: 'barefoot', LH: 'barefoot', RF: 'barefoot', RH: 'barefoot' };
const FRONT_SHOD: Feet = { ...BAREFOOT, LF: 'shod', RF: 'shod' };

const ENGLISH = ['Saddle pad', 'English saddle', 'Girth', 'Safety stirrups', 'Snaffle bridle'];
const WESTERN = ['Saddle blanket', 'Western saddle', 'Cinch', 'Halter under the bridle', 'Neck strap'];
const FLEECE = ['Fleece pad', 'Surcingle with two handles', 'Halter', 'Lead rope'];
const REINS = ['Rainbow reins clipped to the halter'];

type Kept = {
  readonly name: string;
  /** As the barn has taped it. */
  readonly kg: number;
  readonly pony?: boolean;
  readonly feet: Feet;
  /** Name of each tack list and what is on it. */
  readonly tack: Readonly<Record<string, readonly string[]>>;
  readonly experiencedFor?: readonly Stage[];
  readonly notes?: string;
  readonly kit?: string;
  readonly cautions?: readonly Caution[];
};

/** In the order of their stalls. */
const KEPT: readonly Kept[] = [
  {
    name: 'Bramble',
    kg: 420,
    feet: FRONT_SHOD,
    tack: { Fleece: [...FLEECE, ...REINS], English: ENGLISH },
    kit: 'Box with the green lid',
    notes: 'Likes a hand on the neck first. Stands best when brushed from the front to the back.',
  },
  {
    name: 'Clay',
    kg: 512,
    feet: SHOD,
    tack: { English: ENGLISH, Fleece: FLEECE, Western: WESTERN },
    notes: 'Two saddle pads under the English saddle.',
    cautions: [
      { signal: 'CAUTION', text: 'Swings his quarters when girthed. Stay at the shoulder; tighten slowly.' },
    ],
  },
  {
    name: 'Dot',
    kg: 268,
    pony: true,
    feet: BAREFOOT,
    tack: { English: [...ENGLISH, ...REINS] },
    notes: 'Small and low: mind your back, kneel on no knee beside her, bend from the hips.',
  },
  {
    name: 'Fern',
    kg: 455,
    feet: BAREFOOT,
    tack: { Fleece: FLEECE, English: ENGLISH },
    cautions: [{ signal: 'NOTICE', text: 'Opens knots. Clip the stall guard as well as the door.' }],
  },
  {
    name: 'Gus',
    kg: 655,
    feet: SHOD,
    tack: { Western: WESTERN },
    notes: 'Heavy coat: the body takes longer than you think.',
    cautions: [
      { signal: 'CAUTION', text: 'Leans on whoever holds a hind foot. Set it down slowly and step away.' },
    ],
  },
  {
    name: 'Hazel',
    kg: 490,
    feet: FRONT_SHOD,
    tack: { English: ENGLISH, Western: WESTERN },
    notes: 'Soft brush only behind the elbows. Tell the instructor about any rub you see.',
  },
  {
    name: 'Juno',
    kg: 438,
    feet: BAREFOOT,
    tack: { English: ENGLISH, Fleece: FLEECE },
    cautions: [{ signal: 'CAUTION', text: 'May nip when the girth comes up. Keep the lead rope in hand.' }],
  },
  {
    name: 'Kip',
    kg: 475,
    feet: SHOD,
    tack: { Western: WESTERN, English: ENGLISH },
    experiencedFor: ['tack'],
    notes: 'Bridle last, with the instructor’s fitting card beside you.',
    cautions: [
      { signal: 'CAUTION', text: 'Throws his head when the bridle goes on. Experienced people only.' },
    ],
  },
  {
    name: 'Moss',
    kg: 430,
    feet: FRONT_SHOD,
    tack: { Fleece: [...FLEECE, ...REINS] },
    notes: 'Old and slow to wake. Give him time between one foot and the next.',
  },
  {
    name: 'Otis',
    kg: 530,
    feet: BAREFOOT,
    tack: { Western: WESTERN, Fleece: FLEECE },
    cautions: [{ signal: 'NOTICE', text: 'Eats gloves and ropes. Leave nothing within his reach.' }],
  },
  {
    name: 'Pepper',
    kg: 480,
    feet: BAREFOOT,
    tack: { English: ENGLISH, Western: WESTERN },
    notes: 'Steady with new people. Often the stand-in.',
  },
  {
    name: 'Rook',
    kg: 560,
    feet: SHOD,
    tack: { English: ENGLISH, Western: WESTERN, Fleece: FLEECE },
    notes: 'Blind in the left eye: speak before you come up on that side.',
    cautions: [
      { signal: 'CAUTION', text: 'Cannot see you on his left. Speak, then touch the shoulder, then work.' },
    ],
  },
  {
    name: 'Tansy',
    kg: 445,
    feet: FRONT_SHOD,
    tack: { English: ENGLISH },
    experiencedFor: ['feet'],
    cautions: [
      {
        signal: 'WARNING',
        text: 'May kick when startled from behind. Speak first, come up at the shoulder, never pass close behind. Experienced people only for her feet.',
      },
    ],
  },
  {
    name: 'Ziggy',
    kg: 500,
    feet: SHOD,
    tack: { English: ENGLISH },
    notes: 'Resting. Hay and water only, no grooming in the aisle.',
  },
];

/** Width of a stall and half a wall, in metres. */
const STALL_METRES = 3.5;

export const STALLS: readonly Stall[] = KEPT.map((_, i) => ({
  id: `s${i + 1}`,
  name: `${i + 1}`,
  metres: i * STALL_METRES,
}));

/** The barn's horses, none held. */
export const HORSES: readonly Horse[] = KEPT.map((kept, i) => ({
  id: kept.name.toLowerCase(),
  name: kept.name,
  stall: `s${i + 1}`,
  feet: kept.feet,
  tackLists: Object.entries(kept.tack).map(([name, items]) => tackList(kept.name, name, items)),
  experiencedFor: [...(kept.experiencedFor ?? [])],
  notes: kept.notes ?? '',
  cautions: [...(kept.cautions ?? [])],
  holds: [],
  ...(kept.kit !== undefined && { kit: kept.kit }),
  private: {
    weight: { kg: kept.kg, how: 'tape' },
    pony: kept.pony ?? false,
    condition: 5,
    loadLimit: null,
  },
}));

function tackList(horse: string, name: string, items: readonly string[]): TackList {
  return { id: tackId(horse, name), name, items: [...items], kg: tackKg(items) };
}

/** A saddle makes most of it; nobody has weighed what hangs on a surcingle. */
function tackKg(items: readonly string[]): number | null {
  if (items.includes('Western saddle')) return 15;
  return items.includes('English saddle') ? 8.5 : null;
}

/** Id of a horse's tack list of this name. */
export function tackId(horse: string, list: string): string {
  return `${horse}-${list}`.toLowerCase();
}

/** Records as a table of the barn keeps them. */
export function byId<T extends { readonly id: string }>(records: readonly T[]): Record<string, T> {
  return Object.fromEntries(records.map((record) => [record.id, record]));
}
