/** Proposals for open places on any day: within the rules, as written a second time; nothing left that could be filled. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Lesson } from '#core/barn/lesson.ts';
import type { Board } from '#core/day/board.ts';
import { conflicts } from '#core/day/conflicts.ts';
import { decide } from '#core/day/decide.ts';
import { evolve } from '#core/day/evolve.ts';
import { propose } from '#core/plan/propose/propose.ts';
import type { ReadyChance } from '#core/plan/standIns/model.ts';
import { MINUTE_MS } from '#core/time/units.ts';
import { entry, NOON } from './day-arbitraries.ts';
import { asked } from './stand-ins-arbitraries.ts';
import { faults, keyOf, planOf, spots } from './stand-ins-checker.ts';

const always: ReadyChance = () => ({ ready: NOON, chance: 1, spareMs: 60 * MINUTE_MS });

/** A day with places taken off their horses, and people cleared to go along. */
const day = fc
  .record({
    drawn: asked({ horses: 6, lessons: 4, places: 3 }),
    open: fc.array(fc.nat(20), { maxLength: 8 }),
    cleared: fc.array(fc.subarray(['lead', 'side-walk'] as const), { minLength: 3, maxLength: 3 }),
  })
  .map(({ drawn: { board }, open, cleared }): Board => {
    const all = spots(board);
    const emptied = new Set(open.map((n) => all[n % Math.max(1, all.length)]?.key));
    const lessons = Object.fromEntries(
      Object.entries(board.day.lessons).map(([id, lesson]) => [
        id,
        {
          ...lesson,
          places: lesson.places.map((place) =>
            emptied.has(keyOf({ lesson: id, place: place.id }))
              ? { ...place, horse: null, tack: null }
              : place,
          ),
        },
      ]),
    );
    const volunteers = Object.fromEntries(
      Object.values(board.barn.volunteers).map((one, i) => [
        one.id,
        { ...one, clearances: [...one.clearances, ...(cleared[i] ?? [])] },
      ]),
    );
    return { ...board, barn: { ...board.barn, volunteers }, day: { ...board.day, lessons } };
  });

function taken(board: Board): Board {
  const { fact } = propose(board);
  return fact ? evolve(board, entry(1, fact)) : board;
}

const endOf = (lesson: Lesson): number => lesson.start + lesson.minutes * MINUTE_MS;
const atOnce = (a: Lesson, b: Lesson): boolean => a.start < endOf(b) && b.start < endOf(a);

describe('on any day', () => {
  test('what is proposed keeps the rules, changes nothing that was planned, and may be taken', () => {
    let proposed = 0;
    fc.assert(
      fc.property(day, (board) => {
        const { fact, horses } = propose(board);
        if (!fact) return;
        proposed += horses.length;
        expect(decide(board, { id: 'o', device: 'd', by: null, tappedAt: NOON, fact }).why).toBeNull();
        const after = taken(board);
        expect(faults(board, planOf(after), always)).toEqual([]);
        for (const { place, key } of spots(board)) {
          const now = spots(after).find((one) => one.key === key)?.place;
          if (place.horse !== null) expect(now?.horse).toBe(place.horse);
          if (place.leader !== null) expect(now?.leader).toBe(place.leader);
        }
      }),
      { numRuns: 50 },
    );
    expect(proposed).toBeGreaterThan(15);
  });

  test('whoever is proposed to lead is cleared, there, and nowhere else at that time', () => {
    fc.assert(
      fc.property(day, (board) => {
        const after = taken(board);
        for (const { person, lesson: id, role } of propose(board).people) {
          const asksFor = role === 'leader' ? 'lead' : 'side-walk';
          expect(board.barn.volunteers[person]?.clearances).toContain(asksFor);
          const presence = board.day.hands[person]?.presence;
          expect(['here', 'expected']).toContain(presence?.state);
          const lesson = board.day.lessons[id];
          if (!lesson) throw new Error('no lesson');
          const roles = spots(after).filter(
            (one) =>
              (one.lesson.id === id || atOnce(one.lesson, lesson)) &&
              [one.place.leader, ...one.place.sideWalkers].includes(person),
          );
          expect(roles).toHaveLength(1);
        }
      }),
      { numRuns: 50 },
    );
  });

  test('a place that stays without a horse could take none as the day then stands', () => {
    fc.assert(
      fc.property(day, (board) => {
        const after = taken(board);
        const { rules } = board.barn;
        for (const spot of spots(after).filter(({ place }) => place.horse === null)) {
          for (const horse of Object.values(board.barn.horses)) {
            const plan = new Map([...planOf(after), [spot.key, horse.id]]);
            const tight = spots(after).some(({ place, lesson }) => {
              if (place.horse !== horse.id) return false;
              const gap =
                (Math.max(lesson.start, spot.lesson.start) - Math.min(endOf(lesson), endOf(spot.lesson))) /
                MINUTE_MS;
              // 4 + 11 + 8 min of preparation, 10 + 5 of lead: the most there must be between two lessons.
              return gap < rules.warmUpMinutes + rules.mountingMinutes + 23;
            });
            expect(tight || faults(after, plan, always).length > 0).toBe(true);
          }
        }
        expect(propose(after).fact).toBeNull();
      }),
      { numRuns: 50 },
    );
  });

  test('taken, no conflict comes that was not there before but for what only a horse can have', () => {
    fc.assert(
      fc.property(day, (board) => {
        const stops = (one: Board): Set<string> =>
          new Set(
            conflicts(one)
              .filter(({ level }) => level === 'stop')
              .map((conflict) => JSON.stringify(conflict)),
          );
        const before = stops(board);
        const fresh = [...stops(taken(board))].filter((one) => !before.has(one));
        expect(fresh.filter((one) => !one.includes('"open-role"'))).toEqual([]);
      }),
      { numRuns: 50 },
    );
  });
});

describe('conflicts on any day', () => {
  test('a horse, a rider or a person twice at once is found exactly where it is so', () => {
    fc.assert(
      fc.property(day, (board) => {
        const all = spots(board).toSorted(
          (a, b) => a.lesson.start - b.lesson.start || (a.key < b.key ? -1 : 1),
        );
        const twice = (pick: (spot: (typeof all)[number]) => readonly (string | null)[]): Set<string> =>
          new Set(
            all.flatMap((one, i) =>
              all
                .slice(0, i)
                .filter((other) => one.lesson.id === other.lesson.id || atOnce(one.lesson, other.lesson))
                .flatMap((other) => pick(one).filter((id) => id !== null && pick(other).includes(id))),
            ),
          ) as Set<string>;
        const found = conflicts(board);
        const horses = new Set(found.flatMap((one) => (one.code === 'horse-twice' ? one.horse : [])));
        const riders = new Set(found.flatMap((one) => (one.code === 'rider-twice' ? one.rider : [])));
        const known = [...twice(({ place }) => [place.horse])].filter((id) => board.barn.horses[id]);
        expect([...horses].toSorted()).toEqual(known.toSorted());
        expect([...riders].toSorted()).toEqual([...twice(({ place }) => [place.rider])].toSorted());
      }),
      { numRuns: 50 },
    );
  });

  test('a day without lessons has none', () => {
    fc.assert(
      fc.property(day, (board) => {
        expect(conflicts({ ...board, day: { ...board.day, lessons: {} } })).toEqual([]);
      }),
      { numRuns: 30 },
    );
  });
});
