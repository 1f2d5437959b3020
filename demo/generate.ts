/** Barns of any size for trying out how much the board can bear: made from a seed, all names and numbers invented. */
import { emptyBarn, type Barn } from '#core/barn/barn.ts';
import type { Horse, Stall } from '#core/barn/horse.ts';
import type { Lesson, Place } from '#core/barn/lesson.ts';
import type { Arena, Rider, Staff, Volunteer } from '#core/barn/people.ts';
import { asks, CLEARANCES, isCleared, STAGES } from '#core/barn/stage.ts';
import type { Board } from '#core/day/board.ts';
import { lessonEnd, rampTime } from '#core/day/preps.ts';
import { HOUR_MS, MINUTE_MS } from '#core/time/units.ts';
import { instantAt } from '#core/time/zone.ts';
import { DEMO_ZONE } from './barn.ts';
import { DEMO_START } from './day.ts';
import { chance, seedFor, shuffled, type Chance } from './random.ts';
import { piecesOf, setUp, type Given, type Hours } from './setUp.ts';

export type Size = {
  readonly horses: number;
  /** Volunteers. */
  readonly people: number;
  readonly lessons: number;
  readonly seed: number;
  readonly date: string;
};

const FIRST_LESSON = '14:00';
/** From one lesson's start to the next in the same arena. */
const SLOT_MINUTES = 50;
/** Most lessons one after the other in an arena. */
const LESSONS_AN_ARENA = 5;
/** At most this part of the people is led into lessons at one time: somebody has to prepare the next horses. */
const PART_IN_LESSONS = 0.45;
const MOST_LESSONS_A_HORSE = 3;
const STALL_METRES = 3.5;

/**
 * The board of such a barn as its afternoon begins (13:10 in the demo's zone), every piece of work given to somebody.
 * Lessons get fewer places when there are too few horses. The same size and seed give the same board.
 */
export function generateBarn(size: Size): Board {
  const start = instantAt({ date: size.date, time: DEMO_START }, DEMO_ZONE);
  const barn = records(size, chance(seedFor(size.seed, 'records')));
  const lessons = teach(size, barn, chance(seedFor(size.seed, 'lessons')));
  const plan = {
    date: size.date,
    lessons,
    hours: hours(barn, start, chance(seedFor(size.seed, 'hours'))),
    given: shareOut,
  };
  return setUp(barn, plan, start);
}

/** When a generated afternoon begins on `date`, ms. */
export function afternoonStart(date: string): number {
  return instantAt({ date, time: DEMO_START }, DEMO_ZONE);
}

function records(size: Size, luck: Chance): Barn {
  const table = <T>(prefix: string, count: number, make: (id: string, i: number) => T): Record<string, T> =>
    Object.fromEntries(
      Array.from({ length: count }, (_, i) => [`${prefix}${i + 1}`, make(`${prefix}${i + 1}`, i)]),
    );
  const arenas = Math.ceil(size.lessons / LESSONS_AN_ARENA);
  return {
    ...emptyBarn(`Barn of ${size.horses}`, DEMO_ZONE),
    stalls: table('s', size.horses, (id, i): Stall => ({ id, name: `${i + 1}`, metres: i * STALL_METRES })),
    horses: table('h', size.horses, (id, i) => horse(id, i, luck)),
    volunteers: table('v', size.people, (id, i) => volunteer(id, i, luck)),
    staff: {
      c1: { id: 'c1', name: 'Coordinator', role: 'coordinator' },
      ...table('i', arenas, (id, i): Staff => ({ id, name: `Instructor ${i + 1}`, role: 'instructor' })),
    },
    riders: table('r', size.lessons * 5, (id, i) => rider(id, i, luck)),
    arenas: table('a', arenas, (id, i): Arena => ({ id, name: `Arena ${i + 1}` })),
  };
}

function horse(id: string, i: number, luck: Chance): Horse {
  const shod = luck.happens(0.5) ? 'shod' : 'barefoot';
  const lists = 1 + Math.floor(luck.between(0, 3));
  return {
    id,
    name: spoken(i),
    stall: `s${i + 1}`,
    feet: { LF: shod, RF: shod, LH: 'barefoot', RH: 'barefoot' },
    tackLists: ['English', 'Western', 'Fleece']
      .slice(0, lists)
      .map((name) => ({ id: `${id}-${name.toLowerCase()}`, name, items: ['Saddle pad', 'Girth'], kg: null })),
    experiencedFor: STAGES.filter(() => luck.happens(0.05)),
    notes: '',
    cautions: [],
    holds: [],
    private: {
      weight: { kg: Math.round(luck.between(300, 620)), how: 'tape' },
      pony: false,
      condition: null,
      loadLimit: null,
    },
  };
}

/** A name that can be said, different for every number below 1,000. */
function spoken(i: number): string {
  const starts = ['Ba', 'Co', 'Di', 'Fu', 'Ga', 'Lo', 'Mi', 'Nu', 'Re', 'Ta'];
  const middles = ['lo', 'ri', 'na', 'de', 'mu', 'sa', 'ti', 'vo', 'ke', 'pi'];
  const ends = ['n', 'r', 'x', 's', 'l', 'm', 'k', 'th', 'd', 'b'];
  return `${starts[i % 10]}${middles[Math.floor(i / 10) % 10]}${ends[Math.floor(i / 100) % 10]}`;
}

function volunteer(id: string, i: number, luck: Chance): Volunteer {
  const odds: Record<(typeof CLEARANCES)[number], number> = {
    feet: 0.85,
    coat: 1,
    tack: 0.85,
    lead: 0.7,
    'side-walk': 0.6,
    experienced: 0.35,
  };
  return {
    id,
    name: `Person ${i + 1}`,
    // The first one may do everything, so that there is nothing nobody may do.
    clearances: CLEARANCES.filter((clearance) => luck.happens(odds[clearance]) || i === 0),
    private: { pace: Math.round(100 * luck.between(0.8, 1.5)) / 100, usualHours: [] },
  };
}

function rider(id: string, i: number, luck: Chance): Rider {
  return {
    id,
    callName: `Rider ${i + 1}`,
    private: {
      fullName: `Rider Number ${i + 1}`,
      weightKg: Math.round(luck.between(20, 60)),
      balanced: luck.happens(0.6),
      needs: '',
      approvedHorses: [],
      notWithHorses: [],
    },
  };
}

/** Lessons side by side in the arenas, one slot after the other. */
function teach(size: Size, barn: Barn, luck: Chance): Lesson[] {
  const first = instantAt({ date: size.date, time: FIRST_LESSON }, DEMO_ZONE);
  const arenas = Object.keys(barn.arenas);
  const ridden = new Map<string, number>();
  const lessons: Lesson[] = [];
  for (let i = 0; i < size.lessons; i++) {
    const slot = Math.floor(i / arenas.length);
    const arena = i % arenas.length;
    const together = lessons.slice(lessons.length - arena);
    const atOnce = new Set(together.flatMap(({ places }) => places.map((place) => place.horse)));
    const inLesson = together.flatMap(({ places }) => places.flatMap(walkers));
    const free = shuffled(Object.keys(barn.horses), luck).filter(
      (id) => !atOnce.has(id) && (ridden.get(id) ?? 0) < MOST_LESSONS_A_HORSE,
    );
    const horses = free.slice(0, 3 + Math.floor(luck.between(0, 3)));
    for (const id of horses) ridden.set(id, (ridden.get(id) ?? 0) + 1);
    const most = Math.max(0, Math.floor(size.people * PART_IN_LESSONS) - inLesson.length);
    const walking = new Walking(barn, new Set(inLesson), Math.floor(most / (arenas.length - arena)), luck);
    lessons.push({
      id: `l${i + 1}`,
      name: `Lesson ${i + 1}`,
      start: first + slot * SLOT_MINUTES * MINUTE_MS,
      minutes: luck.pick([30, 35, 40, 45]) ?? 30,
      arena: arenas[arena] ?? null,
      instructor: `i${arena + 1}`,
      cancelled: false,
      places: horses.map((id, p) =>
        place(barn, `l${i + 1}p${p + 1}`, `r${i * 5 + p + 1}`, id, walking, luck),
      ),
    });
  }
  return lessons;
}

/** Hands out people who may lead or side-walk, each once, until there are enough in lessons. */
class Walking {
  readonly #free: Volunteer[];
  #left: number;

  constructor(barn: Barn, taken: ReadonlySet<string>, most: number, luck: Chance) {
    this.#free = shuffled(Object.values(barn.volunteers), luck).filter(({ id }) => !taken.has(id));
    this.#left = most;
  }

  take(clearance: 'lead' | 'side-walk'): string | null {
    const index = this.#free.findIndex(({ clearances }) => clearances.includes(clearance));
    if (index < 0 || this.#left === 0) return null;
    this.#left -= 1;
    return this.#free.splice(index, 1)[0]?.id ?? null;
  }
}

function place(barn: Barn, id: string, rider: string, horse: string, walking: Walking, luck: Chance): Place {
  const leader = luck.happens(0.7) ? walking.take('lead') : null;
  const sideWalker = luck.happens(0.3) ? walking.take('side-walk') : null;
  const tack = luck.pick(barn.horses[horse]?.tackLists ?? [])?.id ?? null;
  const sideWalkers = sideWalker === null ? [] : [sideWalker];
  return { id, rider, horse, tack, leader, sideWalkers, cancelled: false };
}

function walkers({ leader, sideWalkers }: Place): string[] {
  return [...(leader === null ? [] : [leader]), ...sideWalkers];
}

/** Most are here from the start to the end; one in five comes later, one in five goes earlier. */
function hours(barn: Barn, start: number, luck: Chance): Hours[] {
  return Object.keys(barn.volunteers).map((volunteer) => ({
    volunteer,
    from: start + (luck.happens(0.2) ? Math.round(luck.between(0, HOUR_MS)) : 0),
    until: start + 8 * HOUR_MS - (luck.happens(0.2) ? Math.round(luck.between(0, 4 * HOUR_MS)) : 0),
  }));
}

/** Every horse whole to the least loaded person who may do all of it and is not in a lesson then. */
function shareOut(board: Board): Given[] {
  const { barn, day } = board;
  const loadMs = new Map<string, number>();
  const preps = Object.values(day.preps).map((prep) => ({
    prep,
    ramp: rampTime(day, prep, barn.rules) ?? Infinity,
  }));
  return preps
    .sort((a, b) => a.ramp - b.ramp)
    .flatMap(({ prep, ramp }) => {
      const pieces = piecesOf(prep);
      const experienced = barn.horses[prep.horse]?.experiencedFor ?? [];
      const stages = prep.kind === 'full' ? STAGES : (['tack'] as const);
      const asked = stages.flatMap((stage) => asks(experienced, stage));
      const able = Object.values(barn.volunteers).filter((one) => isCleared(one.clearances, asked));
      const free = able.filter(({ id }) => !isInLesson(board, id, ramp - 30 * MINUTE_MS, ramp));
      const load = ({ id }: Volunteer): number => loadMs.get(id) ?? 0;
      const [to] = (free.length > 0 ? free : able).sort((a, b) => load(a) - load(b));
      if (!to) return [];
      loadMs.set(to.id, load(to) + pieces.length);
      return [{ to: to.id, pieces }];
    });
}

function isInLesson({ day }: Board, id: string, from: number, until: number): boolean {
  return Object.values(day.lessons).some(
    (lesson) =>
      lesson.start - 5 * MINUTE_MS < until &&
      lessonEnd(lesson) > from &&
      lesson.places.some((one) => walkers(one).includes(id)),
  );
}
