/** Barns with all that a table can hold, and cells and texts that are hard on a file. */
import fc from 'fast-check';
import { emptyBarn, type Barn } from '#core/barn/barn.ts';
import type { PlannedLesson } from '#core/barn/book.ts';
import type { Horse } from '#core/barn/horse.ts';
import type { Rider, Volunteer } from '#core/barn/people.ts';
import { CLEARANCES, STAGES } from '#core/barn/stage.ts';

/** Signs that have a meaning in a table or a calendar, and some of more than one octet. */
export const hardText = fc
  .array(
    fc.constantFrom(
      'a',
      'B',
      '7',
      ' ',
      ',',
      ';',
      '\t',
      '"',
      "'",
      '\n',
      '=',
      '+',
      ':',
      '\\',
      'é',
      'ß',
      '漢',
      '🐴',
    ),
    {
      maxLength: 60,
    },
  )
  .map((signs) => signs.join(''));

/** A name as a person has one: nothing a list in one cell is parted by. */
const nameWith = (n: number): fc.Arbitrary<string> =>
  fc
    .array(fc.constantFrom('a', 'B', 'é', 'Ł', '漢', ' ', '-', ',', '"', '.'), {
      minLength: 1,
      maxLength: 12,
    })
    .map((signs) => `N${n} ${signs.join('')}z`.replaceAll(/\s+/g, ' '));

const words = hardText.map((text) =>
  text
    .replaceAll(/^['=+\-@\t]+/g, '')
    .trim()
    .slice(0, 100),
);
const foot = fc.constantFrom('shod' as const, 'barefoot' as const);
const kg = (low: number, high: number): fc.Arbitrary<number> =>
  fc.integer({ min: low * 10, max: high * 10 }).map((tenths) => tenths / 10);
const minute = fc.integer({ min: 0, max: 24 * 60 - 2 });

const horse = (n: number): fc.Arbitrary<Horse> =>
  fc.record({
    id: fc.constant(`h${n}`),
    name: nameWith(n),
    stall: fc.constantFrom('s1', 's2'),
    feet: fc.record({ LF: foot, LH: foot, RF: foot, RH: foot }),
    tackLists: fc.uniqueArray(
      fc.record({
        id: fc.constantFrom('t1', 't2', 't3'),
        name: fc.constantFrom('English', 'Surcingle'),
        items: fc.uniqueArray(fc.constantFrom('Pad', 'Saddle, old', 'Girth'), { maxLength: 3 }),
        kg: fc.option(kg(0, 60)),
      }),
      { maxLength: 2, selector: ({ name }) => name },
    ),
    experiencedFor: fc.uniqueArray(fc.constantFrom(...STAGES), { maxLength: 3 }),
    notes: words,
    cautions: fc.constant([]),
    holds: fc.constant([]),
    private: fc.record({
      weight: fc.option(
        fc.record({ kg: kg(30, 1500), how: fc.constantFrom('scale' as const, 'tape' as const) }),
      ),
      pony: fc.boolean(),
      condition: fc.option(fc.integer({ min: 1, max: 9 })),
      loadLimit: fc.constant(null),
    }),
  });

const volunteer = (n: number): fc.Arbitrary<Volunteer> =>
  fc.record({
    id: fc.constant(`v${n}`),
    name: nameWith(n + 10),
    clearances: fc.uniqueArray(fc.constantFrom(...CLEARANCES), { maxLength: 4 }),
    private: fc.record({
      pace: fc.integer({ min: 25, max: 400 }).map((percent) => percent / 100),
      usualHours: fc.array(
        fc
          .tuple(fc.integer({ min: 1, max: 7 }), minute, fc.integer({ min: 1, max: 600 }))
          .map(([weekday, from, length]) => ({ weekday, from, until: Math.min(24 * 60 - 1, from + length) })),
        { maxLength: 4 },
      ),
    }),
  });

const rider = (n: number): fc.Arbitrary<Rider> =>
  fc.record({
    id: fc.constant(`r${n}`),
    callName: nameWith(n + 20),
    private: fc.record({
      fullName: nameWith(n + 30),
      weightKg: fc.option(kg(1, 250)),
      balanced: fc.boolean(),
      needs: words,
      approvedHorses: fc.uniqueArray(fc.constantFrom('h0', 'h1'), { maxLength: 2 }),
      notWithHorses: fc.uniqueArray(fc.constantFrom('h0', 'h1'), { maxLength: 2 }),
    }),
  });

const planned = (n: number): fc.Arbitrary<PlannedLesson> =>
  fc.record({
    id: fc.constant(`l${n}`),
    name: nameWith(n + 40),
    date: fc.constantFrom('2026-03-29', '2026-11-01', '2028-02-29'),
    time: minute.map(
      (m) => `${String(Math.floor(m / 60)).padStart(2, '0')}:${String(m % 60).padStart(2, '0')}`,
    ),
    minutes: fc.integer({ min: 5, max: 240 }),
    arena: fc.option(fc.constant('a1')),
    instructor: fc.option(fc.constant('i1')),
    places: fc
      .tuple(
        fc.option(fc.constantFrom('r0', 'r1')),
        fc.option(fc.constantFrom('v0', 'v1')),
        fc.integer({ min: 0, max: 2 }),
      )
      .map(([who, leader, count]) =>
        ['h0', 'h1'].slice(0, count).map((id, i) => ({
          id: `p${i + 1}`,
          rider: i === 0 ? who : null,
          horse: id,
          tack: null,
          leader: i === 0 ? leader : null,
          sideWalkers: i === 0 ? ['v0', 'v1'] : [],
        })),
      ),
  });

const byId = <T extends { id: string }>(records: readonly T[]): Record<string, T> =>
  Object.fromEntries(records.map((record) => [record.id, record]));

export const barnWithAll: fc.Arbitrary<Barn> = fc
  .tuple(
    fc.tuple(horse(0), horse(1)),
    fc.tuple(volunteer(0), volunteer(1)),
    fc.tuple(rider(0), rider(1)),
    fc.tuple(planned(0), planned(1), planned(2)),
  )
  .map(([drawn, volunteers, riders, lessons]) => {
    const empty = emptyBarn('Barn', 'Europe/Berlin');
    const horses = drawn.map((one) => ({
      ...one,
      tackLists: one.tackLists.map((list, i) => ({ ...list, id: `t${i}` })),
    }));
    /** A horse with one list goes on that one. */
    const tackFor = (id: string | null): string | null => {
      const lists = horses.find((one) => one.id === id)?.tackLists ?? [];
      return lists.length === 1 ? 't0' : null;
    };
    return {
      ...empty,
      stalls: byId([
        { id: 's1', name: '1', metres: 0 },
        { id: 's2', name: 'Box 2', metres: 4 },
      ]),
      staff: byId([{ id: 'i1', name: 'Ines Ibarra', role: 'instructor' as const }]),
      arenas: byId([{ id: 'a1', name: 'Indoor' }]),
      horses: byId(horses),
      volunteers: byId(volunteers),
      riders: byId(riders),
      book: {
        ...empty.book,
        planned: byId(
          lessons.map((lesson) => ({
            ...lesson,
            places: lesson.places.map((place) => ({ ...place, tack: tackFor(place.horse) })),
          })),
        ),
      },
    };
  });
