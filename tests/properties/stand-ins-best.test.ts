/** The options against every possible plan of small days: none covers more, changes less or ranks before. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { isPulled } from '#core/day/preps.ts';
import { standIns } from '#core/plan/standIns/standIns.ts';
import { judgePair, prepMinutes } from '#core/plan/standIns/pair.ts';
import { costOf, riskOf } from '#core/plan/standIns/rank.ts';
import { Pairings, search } from '#core/plan/standIns/search.ts';
import { seatsOf } from '#core/plan/standIns/seats.ts';
import type { Rank, ReadyChance } from '#core/plan/standIns/model.ts';
import { NOON } from './day-arbitraries.ts';
import { asked, madeUpReadiness, type Asked } from './stand-ins-arbitraries.ts';
import { faults, keyOf, planOf, spots, type Plan } from './stand-ins-checker.ts';

test('as many places, as few changes and the same ranking as trying every plan', () => {
  let chains = 0;
  let covered = 0;
  fc.assert(
    fc.property(asked({ horses: 4, lessons: 3, places: 2 }), fc.nat(), (day, seed) => {
      const readyChance = madeUpReadiness(seed);
      const { options, blocked, exact } = standIns(day.board, NOON, day.affected, readyChance);
      const expected = everyPlan(day, readyChance);
      expect(exact).toBe(true);
      expect(options.map((option) => option.rank)).toEqual(expected);
      // The search itself, asked for no more than three: a bound that is too high shows at once.
      const seats = seatsOf(day.board, NOON, day.affected);
      const limits = { candidates: 3, uncovered: 0, nodes: 1e6, changes: 30 };
      const { found } = search(seats, new Pairings(seats, readyChance), limits);
      expect(found.map((one) => one.rank)).toEqual(expected);
      if (options.length > 0) covered += 1;
      if (options.some((option) => option.changes.some((change) => change.as === 'chain'))) chains += 1;
      const live = new Set(spots(day.board).map(({ key }) => key));
      const asking = day.affected.filter((ref) => live.has(keyOf(ref))).length;
      const left = options[0]?.rank.uncovered ?? asking;
      expect(blocked.length).toBe(left * Object.keys(day.board.barn.horses).length);
      for (const one of blocked) {
        expect(one.blocks.length).toBeGreaterThan(0);
        expect(one.blocks.map((block) => block.code)).not.toContain('not-settled');
      }
    }),
    { numRuns: 400 },
  );
  expect(covered).toBeGreaterThan(100);
  expect(chains).toBeGreaterThan(2);
});

/** The ranks of the three best sets of horses to bring in, by trying every horse in every place. */
function everyPlan({ board, affected }: Asked, readyChance: ReadyChance): Rank[] {
  const now = planOf(board);
  const asking = new Set(affected.map(keyOf).filter((key) => now.has(key)));
  const movable = spots(board).filter(({ key, lesson, place }) => {
    if (asking.has(key)) return true;
    return lesson.start > NOON && place.horse !== null && !isPulled(board.barn, place.horse);
  });
  const horses = Object.keys(board.barn.horses);
  const best = new Map<string, Rank>();

  const tryFrom = (i: number, plan: Map<string, string | null>): void => {
    const spot = movable[i];
    if (!spot) {
      weigh(plan);
      return;
    }
    const choices = asking.has(spot.key) ? [null, ...horses.filter((h) => h !== spot.place.horse)] : horses;
    for (const choice of choices) tryFrom(i + 1, new Map(plan).set(spot.key, choice));
  };
  const isSound = (plan: Plan): boolean => faults(board, plan, readyChance).length === 0;
  const weigh = (plan: Plan): void => {
    const changed = movable.filter(({ key }) => plan.get(key) !== null && plan.get(key) !== now.get(key));
    if (changed.length === 0) return;
    const set = [...new Set(changed.map(({ key }) => plan.get(key) ?? ''))].sort().join(' ');
    const rank = rankOf(
      plan,
      changed.map(({ key }) => key),
    );
    const known = best.get(set);
    if (known && costOf(known) <= costOf(rank)) return;
    if (!isSound(plan)) return;
    // A plan is none of ours when some settled places could just stay as they are.
    const settled = changed.filter(({ key }) => !asking.has(key));
    for (let bits = 1; bits < 2 ** settled.length; bits += 1) {
      const back = new Map(plan);
      settled.forEach(({ key }, i) => {
        if ((bits & (1 << i)) !== 0) back.set(key, now.get(key) ?? null);
      });
      if (isSound(back)) return;
    }
    best.set(set, rank);
  };
  const seats = seatsOf(board, NOON, affected);
  const rankOf = (plan: Plan, changed: readonly string[]): Rank => {
    const rank = {
      uncovered: [...asking].filter((key) => plan.get(key) === null).length,
      changed: changed.length,
      risk: 0,
      soft: 0,
    };
    for (const key of changed) {
      const seat = seats.byKey.get(key);
      const horse = board.barn.horses[plan.get(key) ?? ''];
      if (!seat || !horse) throw new Error(key);
      rank.soft += judgePair(seats, seat, horse).soft;
      const ref = { lesson: seat.lesson.id, place: seat.place.id };
      rank.risk += riskOf(readyChance(horse.id, ref, null), board.barn.rules);
    }
    for (const id of new Set(changed.map((key) => plan.get(key) ?? ''))) rank.soft += prepMinutes(seats, id);
    return rank;
  };

  tryFrom(0, new Map([...now].map(([key, horse]) => [key, asking.has(key) ? null : horse])));
  const ranked = [...best.values()].sort((a, b) => costOf(a) - costOf(b));
  return ranked.filter((rank) => rank.uncovered === ranked[0]?.uncovered).slice(0, 3);
}
