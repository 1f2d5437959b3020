/** Barns and days, sensible or not, in which stand-ins are asked for. */
import fc from 'fast-check';
import type { Horse, TackList } from '#core/barn/horse.ts';
import type { Lesson, Place } from '#core/barn/lesson.ts';
import type { Rider, Volunteer } from '#core/barn/people.ts';
import { DEFAULT_RULES } from '#core/barn/rules.ts';
import type { Board, FindingNote, Hands, PlaceRef } from '#core/day/board.ts';
import { emptyBoard } from '#core/day/emptyBoard.ts';
import { liveBookings } from '#core/day/preps.ts';
import { regroup } from '#core/day/regroup.ts';
import type { ReadyChance } from '#core/plan/standIns/model.ts';
import { MINUTE_MS } from '#core/time/units.ts';
import { horse, NOON } from './day-arbitraries.ts';

export type Size = { readonly horses: number; readonly lessons: number; readonly places: number };

export type Asked = { readonly board: Board; readonly affected: readonly PlaceRef[] };

const ids = (prefix: string, count: number) => Array.from({ length: count }, (_, i) => `${prefix}${i}`);
const mostly = <T>(usual: fc.Arbitrary<T>, rare: fc.Arbitrary<T>, weight = 6) =>
  fc.oneof({ weight, arbitrary: usual }, { weight: 1, arbitrary: rare });

const LISTS: readonly TackList[] = [
  { id: 't1', name: 'English', items: [], kg: 9 },
  { id: 't2', name: 'Surcingle', items: [], kg: null },
  { id: 't3', name: 'Western', items: [], kg: 16 },
];

const hold = fc.constantFrom<Horse['holds'][number]['kind']>('today', 'instructor', 'farrier', 'vet');

function anyHorse(id: string): fc.Arbitrary<Horse> {
  return fc
    .record({
      tackLists: mostly(fc.subarray([...LISTS], { minLength: 1 }), fc.constant<TackList[]>([])),
      holds: mostly(
        fc.constant<Horse['holds']>([]),
        hold.map((kind) => [{ kind, why: 'sore', by: null, since: NOON }]),
      ),
      weight: mostly(
        fc.record({
          kg: fc.integer({ min: 250, max: 650 }),
          how: fc.constantFrom('scale' as const, 'tape' as const),
        }),
        fc.constant(null),
      ),
      pony: fc.boolean(),
      experiencedFor: mostly(
        fc.constant<Horse['experiencedFor']>([]),
        fc.constant<Horse['experiencedFor']>(['feet']),
      ),
      known: mostly(fc.constant(true), fc.constant(false), 12),
    })
    .map(({ weight, pony, known, ...more }) => {
      const { private: _none, ...bare } = horse(id, more);
      return known ? { ...bare, private: { weight, pony, condition: 5, loadLimit: null } } : bare;
    });
}

function anyRider(id: string, horses: readonly string[]): fc.Arbitrary<Rider> {
  return fc
    .record({
      weightKg: mostly(fc.integer({ min: 20, max: 105 }), fc.constant(null)),
      balanced: fc.boolean(),
      approvedHorses: fc.subarray([...horses]),
      notWithHorses: mostly(fc.constant<string[]>([]), fc.subarray([...horses]), 2),
    })
    .map((known) => ({
      id,
      callName: `Call ${id}`,
      private: { fullName: `Full ${id}`, needs: `needs of ${id}`, ...known },
    }));
}

function anyPlace(id: string, horses: readonly string[], riders: readonly string[]): fc.Arbitrary<Place> {
  return fc.record({
    id: fc.constant(id),
    rider: mostly(fc.constantFrom(...riders), fc.constant(null)),
    horse: mostly(fc.constantFrom(...horses), fc.constant(null)),
    tack: fc.constantFrom('t1', 't2', 't3', null),
    leader: fc.constant(null),
    sideWalkers: fc.constant([]),
    cancelled: mostly(fc.constant(false), fc.constant(true), 12),
  });
}

function anyLesson(
  id: string,
  size: Size,
  horses: readonly string[],
  riders: readonly string[],
): fc.Arbitrary<Lesson> {
  return fc
    .record({
      start: fc.integer({ min: -1, max: 9 }).map((n) => NOON + n * 20 * MINUTE_MS),
      minutes: fc.constantFrom(20, 30, 45),
      arena: fc.constantFrom('a1', 'a2', null),
      places: fc
        .integer({ min: 1, max: size.places })
        .chain((count) => fc.tuple(...ids('p', count).map((place) => anyPlace(place, horses, riders)))),
    })
    .map(({ places, ...lesson }) => ({
      ...lesson,
      id,
      name: `Lesson ${id}`,
      instructor: null,
      cancelled: false,
      // No horse twice in a lesson: the second place that names it has none.
      places: places.map((place, i) =>
        places.slice(0, i).some((other) => other.horse === place.horse && !other.cancelled)
          ? { ...place, horse: null }
          : place,
      ),
    }));
}

const EVERYTHING: Volunteer['clearances'] = ['feet', 'coat', 'tack', 'experienced'];

function anyVolunteer(id: string): fc.Arbitrary<readonly [Volunteer, Hands]> {
  const cleared = fc.subarray(EVERYTHING);
  const state = mostly(
    fc.constant<Hands['presence']['state']>('here'),
    fc.constantFrom<Hands['presence']['state']>('expected', 'left', 'notComing'),
    3,
  );
  return fc
    .record({
      cleared: mostly(fc.constant(EVERYTHING), cleared, 3),
      state,
      from: fc.constantFrom(null, NOON + 5 * MINUTE_MS),
    })
    .map(({ cleared: clearances, state: at, from }): readonly [Volunteer, Hands] => [
      { id, name: `Name ${id}`, clearances, private: { pace: 1, usualHours: [] } },
      { presence: { state: at, since: NOON, from, until: null }, queue: [] },
    ]);
}

const anyNotes = (horses: readonly string[]): fc.Arbitrary<FindingNote[]> =>
  fc
    .array(
      fc.record({
        horse: fc.constantFrom(...horses),
        finding: fc.constantFrom<FindingNote['finding']>(
          { on: 'foot', foot: 'LF', kind: 'shoe-lost' },
          { on: 'foot', foot: 'LH', kind: 'stone', cameOut: false },
          { on: 'manner', kind: 'unsettled' },
        ),
        read: fc.constantFrom<FindingNote['read']>([], [{ by: 'v0', at: NOON }]),
        settled: fc.boolean(),
      }),
      { maxLength: 2 },
    )
    .map((notes) => notes.map((note, i) => ({ ...note, id: `f${i}`, words: '', by: null, at: NOON })));

/** A board and the places that ask: all of one horse, or any. */
export function asked(size: Size): fc.Arbitrary<Asked> {
  return fc
    .tuple(fc.integer({ min: 2, max: size.horses }), fc.integer({ min: 1, max: size.lessons }))
    .chain(([horseCount, lessonCount]) => {
      const horses = ids('h', horseCount);
      const riders = ids('r', 4);
      return fc.record({
        horses: fc.tuple(...horses.map(anyHorse)),
        riders: fc.tuple(...riders.map((id) => anyRider(id, horses))),
        lessons: fc.tuple(...ids('L', lessonCount).map((id) => anyLesson(id, size, horses, riders))),
        people: fc.tuple(...ids('v', 3).map(anyVolunteer)),
        notes: mostly(fc.constant<FindingNote[]>([]), anyNotes(horses), 3),
        lessonsPerDay: fc.constantFrom(null, 1, 2, 3),
        minutesPerDay: fc.constantFrom(60, 90, 360),
        pulled: fc.option(fc.constantFrom(...horses)),
        pick: fc.array(fc.nat(99), { minLength: 1, maxLength: 3 }),
      });
    })
    .map((drawn) => {
      const { care } = DEFAULT_RULES;
      const workload = {
        ...care.workload,
        lessonsPerDay: drawn.lessonsPerDay,
        minutesPerDay: drawn.minutesPerDay,
      };
      const empty = emptyBoard('Test', 'America/Denver');
      const rules = { ...DEFAULT_RULES, care: { ...care, workload } };
      const horses = drawn.horses.map((one) =>
        one.id === drawn.pulled && one.holds.length === 0
          ? { ...one, holds: [{ kind: 'today' as const, why: 'lame', by: null, since: NOON }] }
          : one,
      );
      const day = regroup({ ...empty.day, date: '2026-05-11', lessons: keyed(drawn.lessons) }, rules);
      const board: Board = {
        barn: {
          ...empty.barn,
          rules,
          stalls: { s1: { id: 's1', name: '1', metres: 0 } },
          horses: keyed(horses),
          riders: keyed(drawn.riders),
          volunteers: keyed(drawn.people.map(([volunteer]) => volunteer)),
        },
        day: { ...day, hands: Object.fromEntries(drawn.people.map(([{ id }, hands]) => [id, hands])) },
        findings: drawn.notes,
        worked: [],
      };
      const live = liveBookings(day).map(({ lesson, place }) => ({ lesson, place }));
      const ofPulled = live.filter(
        ({ place, lesson }) => place.horse === drawn.pulled && lesson.start > NOON,
      );
      const any = drawn.pick.flatMap((n) => live[n % Math.max(1, live.length)] ?? []);
      const chosen = drawn.pulled !== null && ofPulled.length > 0 ? ofPulled : any;
      const refs = chosen.map(({ lesson, place }) => ({ lesson: lesson.id, place: place.id }));
      return { board, affected: refs.filter((ref, i) => refs.findIndex((o) => same(o, ref)) === i) };
    });
}

function same(a: PlaceRef, b: PlaceRef): boolean {
  return a.lesson === b.lesson && a.place === b.place;
}

function keyed<T extends { id: string }>(records: readonly T[]): Record<string, T> {
  return Object.fromEntries(records.map((record) => [record.id, record]));
}

/** Readiness that depends on horse and place alone, −15 to 30 min of spare, sometimes unknown. */
export function madeUpReadiness(seed: number): ReadyChance {
  return (horseId, { lesson, place }) => {
    const draw = Array.from(`${seed} ${horseId} ${lesson} ${place}`).reduce(
      (n, c) => (n * 33 + c.charCodeAt(0)) % 9973,
      7,
    );
    if (draw % 11 === 0) return { ready: null, chance: null, spareMs: null };
    const spareMs = ((draw % 46) - 15) * MINUTE_MS + (draw % 3) * 20_000;
    return { ready: NOON, chance: draw % 3 === 0 ? (draw % 101) / 100 : null, spareMs };
  };
}
