/**
 * The invented barn's book: a term with lessons on four days of every week, the people who come to them, and a holiday. The
 * weekday of the afternoon that is played is written down here; the other days are drawn by a seed.
 */
import type { Barn } from '#core/barn/barn.ts';
import type { Book, PatternLesson, PlannedPlace, Shift } from '#core/barn/book.ts';
import { EMPTY_BOOK } from '#core/barn/tableNames.ts';
import { isCleared } from '#core/barn/stage.ts';
import { dateAfter, weekdayOf } from '#core/time/dates.ts';
import { byId, tackId } from './horses.ts';
import { chance, seedFor, shuffled, type Chance } from './random.ts';

type Ridden = {
  readonly rider: string;
  readonly horse: string;
  readonly tack: string;
  readonly leader?: string;
  readonly sideWalkers?: readonly string[];
};

type Taught = Omit<PatternLesson, 'weekday' | 'term' | 'places'> & { readonly ridden: readonly Ridden[] };

/** The lessons of the afternoon that is played. */
const TAUGHT: readonly Taught[] = [
  {
    id: 'l1',
    name: 'First steps',
    time: '14:00',
    minutes: 30,
    arena: 'a1',
    instructor: 'i1',
    ridden: [
      { rider: 'r1', horse: 'bramble', tack: 'Fleece', leader: 'v1', sideWalkers: ['v5'] },
      { rider: 'r2', horse: 'dot', tack: 'English', leader: 'v2' },
      { rider: 'r3', horse: 'gus', tack: 'Western' },
      { rider: 'r4', horse: 'moss', tack: 'Fleece', leader: 'v3', sideWalkers: ['v6'] },
    ],
  },
  {
    id: 'l2',
    name: 'Walk and turn',
    time: '14:55',
    minutes: 30,
    arena: 'a2',
    instructor: 'i2',
    ridden: [
      { rider: 'r5', horse: 'bramble', tack: 'Fleece', leader: 'v10', sideWalkers: ['v7'] },
      { rider: 'r6', horse: 'clay', tack: 'English', leader: 'v4' },
      { rider: 'r7', horse: 'fern', tack: 'Fleece' },
      { rider: 'r8', horse: 'hazel', tack: 'English', leader: 'v8' },
    ],
  },
  {
    id: 'l3',
    name: 'Poles and patterns',
    time: '15:45',
    minutes: 35,
    arena: 'a1',
    instructor: 'i1',
    ridden: [
      { rider: 'r9', horse: 'clay', tack: 'Fleece', leader: 'v1', sideWalkers: ['v5'] },
      { rider: 'r10', horse: 'fern', tack: 'Fleece', leader: 'v3' },
      { rider: 'r11', horse: 'juno', tack: 'English' },
      { rider: 'r12', horse: 'kip', tack: 'Western', leader: 'v2', sideWalkers: ['v6'] },
    ],
  },
  {
    id: 'l4',
    name: 'Quiet half hour',
    time: '16:15',
    minutes: 30,
    arena: 'a2',
    instructor: 'i2',
    ridden: [
      { rider: 'r13', horse: 'otis', tack: 'Fleece', leader: 'v10', sideWalkers: ['v8'] },
      { rider: 'r14', horse: 'rook', tack: 'Western', leader: 'v4' },
      { rider: 'r15', horse: 'dot', tack: 'English' },
    ],
  },
  {
    id: 'l5',
    name: 'Trot for those who like',
    time: '17:10',
    minutes: 30,
    arena: 'a1',
    instructor: 'i1',
    ridden: [
      { rider: 'r16', horse: 'tansy', tack: 'English', leader: 'v1', sideWalkers: ['v6'] },
      { rider: 'r17', horse: 'hazel', tack: 'Western', leader: 'v3' },
      { rider: 'r18', horse: 'gus', tack: 'Western', leader: 'v2', sideWalkers: ['v5'] },
      { rider: 'r19', horse: 'moss', tack: 'Fleece', leader: 'v10' },
    ],
  },
];

/** Who comes that afternoon, wall time. */
const COMING: readonly (readonly [volunteer: string, from: string, until: string])[] = [
  ['v1', '13:10', '18:00'],
  ['v2', '13:10', '18:00'],
  ['v3', '13:10', '18:00'],
  ['v4', '13:15', '18:00'],
  ['v5', '13:10', '18:00'],
  ['v6', '13:15', '18:00'],
  ['v7', '13:15', '16:45'],
  ['v8', '13:30', '18:00'],
  ['v9', '13:30', '18:00'],
  ['v10', '13:15', '18:00'],
];

/** Days after the afternoon that is played on which the barn teaches as well. */
const OTHER_DAYS = [1, 2, 4] as const;

/** The other days' lessons: room enough between two of one horse. */
const OTHER_LESSONS = [
  { time: '10:30', minutes: 30, arena: 'a1', instructor: 'i1', name: 'Morning walk', places: 3 },
  { time: '14:00', minutes: 30, arena: 'a2', instructor: 'i2', name: 'Hands and reins', places: 4 },
  { time: '15:30', minutes: 40, arena: 'a1', instructor: 'i1', name: 'Along the poles', places: 4 },
  { time: '17:00', minutes: 30, arena: 'a2', instructor: 'i2', name: 'Evening ride', places: 3 },
] as const;
const OTHER_HOURS = { from: '09:15', until: '18:30' } as const;

const TERM = 't1';
/** Whole weeks of it before the week of the afternoon that is played, and after. */
const WEEKS_BEFORE = 3;
const WEEKS_AFTER = 8;
const SEASONS = ['Winter', 'Spring', 'Summer', 'Autumn'] as const;

/** Days after the afternoon that is played: a day with lessons, and never that afternoon's own weekday. */
const HOLIDAY = 8;

const DEFAULT_SEED = 1;

/** The book of `barn` around `date` (ISO 8601), whose lessons are those of the afternoon that is played. */
export function demoBook(barn: Barn, date: string, seed = DEFAULT_SEED): Book {
  const monday = dateAfter(date, 1 - weekdayOf(date));
  const from = dateAfter(monday, -7 * WEEKS_BEFORE);
  const season = SEASONS[Math.floor((Number(from.slice(5, 7)) % 12) / 3)];
  const holiday = dateAfter(date, HOLIDAY);
  const others = OTHER_DAYS.map((days) => weekdayOf(dateAfter(date, days)));
  return {
    ...EMPTY_BOOK,
    terms: byId([{ id: TERM, name: `${season} term`, from, until: dateAfter(monday, 7 * WEEKS_AFTER + 6) }]),
    pattern: byId([
      ...TAUGHT.map((taught) => asPattern(taught, weekdayOf(date))),
      ...others.flatMap((weekday) => drawn(barn, weekday, chance(seedFor(seed, `lessons ${weekday}`)))),
    ]),
    shifts: byId([
      ...COMING.map(([volunteer, ...hours]) => shift(volunteer, weekdayOf(date), ...hours)),
      ...others.flatMap((weekday) =>
        Object.keys(barn.volunteers).map((id) => shift(id, weekday, OTHER_HOURS.from, OTHER_HOURS.until)),
      ),
    ]),
    exceptions: byId([
      { id: 'e1', what: 'closed', from: holiday, until: holiday, why: 'Holiday: the barn rests' },
    ]),
  };
}

function asPattern({ ridden, ...taught }: Taught, weekday: number): PatternLesson {
  const places = ridden.map((one, i): PlannedPlace => ({
    id: `${taught.id}p${i + 1}`,
    rider: one.rider,
    horse: one.horse,
    tack: tackId(one.horse, one.tack),
    leader: one.leader ?? null,
    sideWalkers: [...(one.sideWalkers ?? [])],
    wanted: { leader: one.leader !== undefined, sideWalkers: one.sideWalkers?.length ?? 0 },
  }));
  return { ...taught, weekday, term: TERM, places };
}

function shift(volunteer: string, weekday: number, from: string, until: string): Shift {
  return {
    id: `${volunteer}-${weekday}`,
    volunteer,
    on: { every: 'week', weekday, term: TERM },
    from,
    until,
  };
}

/** One weekday's lessons: each rider once, on a horse approved for them. The last place is left open, for a proposal. */
function drawn(barn: Barn, weekday: number, luck: Chance): PatternLesson[] {
  const riders = shuffled(
    Object.values(barn.riders).filter((rider) => rider.private?.weightKg),
    luck,
  );
  return OTHER_LESSONS.map(({ places: count, ...lesson }, i) => {
    const id = `w${weekday}-${i + 1}`;
    const busy = new Set<string>();
    const along = shuffled(Object.values(barn.volunteers), luck);
    const taken = (list: readonly { readonly id: string }[]): string | null => {
      const found = list.find((one) => !busy.has(one.id))?.id ?? null;
      if (found !== null) busy.add(found);
      return found;
    };
    const places = Array.from({ length: count }, (_, n): PlannedPlace | null => {
      const rider = riders.find(({ private: of }) => of?.approvedHorses.some((horse) => !busy.has(horse)));
      if (!rider) return null;
      riders.splice(riders.indexOf(rider), 1);
      const approved = rider.private?.approvedHorses ?? [];
      const horse = barn.horses[taken(approved.map((one) => ({ id: one }))) ?? ''];
      const isOpen = i === OTHER_LESSONS.length - 1 && n === count - 1;
      const walkers = rider.private?.balanced ? 0 : 1;
      const leader = taken(along.filter((one) => isCleared(one.clearances, ['lead'])));
      const walker =
        walkers > 0 ? taken(along.filter((one) => isCleared(one.clearances, ['side-walk']))) : null;
      return {
        id: `${id}p${n + 1}`,
        rider: rider.id,
        horse: isOpen ? null : (horse?.id ?? null),
        tack: isOpen ? null : (horse?.tackLists[0]?.id ?? null),
        leader: isOpen ? null : leader,
        sideWalkers: walker === null ? [] : [walker],
        wanted: { leader: true, sideWalkers: walkers },
      };
    });
    return { ...lesson, id, weekday, term: TERM, places: places.filter((place) => place !== null) };
  });
}
