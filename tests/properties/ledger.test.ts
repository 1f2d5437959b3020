/** The ledger adds up, whatever was tapped: parts come to the whole, and saying a correction twice changes nothing. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { evolve } from '#core/day/evolve.ts';
import type { Entry, Op } from '#core/day/ops.ts';
import { Sequence } from '#core/day/sequence.ts';
import { Account } from '#core/ledger/account.ts';
import { accountOfDay } from '#core/ledger/day.ts';
import { correctionsIn, type DayRecord } from '#core/ledger/record.ts';
import { stagesBy } from '#core/ledger/stages.ts';
import { together } from '#core/ledger/together.ts';
import { NOON, opFact, ops, smallBoard } from './day-arbitraries.ts';

const DATE = '2026-05-11';
const EVENING = NOON + 7 * 3_600_000;

/** The day these taps make, up to where another would begin. */
function recordFrom(taps: readonly Op[], date = DATE): DayRecord {
  const sequence = new Sequence({ board: smallBoard(), seq: 0, at: 0, seen: [] });
  const entries: Entry[] = [];
  for (const op of taps) {
    const before = sequence.board;
    const { entry } = sequence.accept(op, 'coordinator', EVENING);
    if (!entry) continue;
    if (evolve(before, entry).day.date !== DATE) break;
    entries.push(entry);
  }
  const day = entries.reduce(evolve, smallBoard()).day;
  return { date, day: { ...day, date }, entries, rules: smallBoard().barn.rules, now: null };
}

function accountFrom(record: DayRecord, times = 1): Account {
  const once = correctionsIn(record.entries).map((one) => ({ ...one, date: record.date }));
  const corrections = Array.from({ length: times }, () => once).flat();
  return accountOfDay(record, { barn: smallBoard().barn, corrections, workedBefore: () => [] });
}

/** How long a horse went in a lesson by somebody's correction: that may be longer than the lesson was meant to be. */
const minutesSaid = ({ entries }: DayRecord, lesson: string, horse: string): number[] =>
  correctionsIn(entries).flatMap(({ correction }) =>
    correction.about === 'ride' && correction.lesson === lesson && correction.horse === horse
      ? correction.minutes
      : [],
  );

const sum = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0);
const day = ops(opFact, 30).map((taps) => recordFrom(taps));

describe('any day', () => {
  test('has an account that can go on the wire', () => {
    fc.assert(
      fc.property(day, (record) => {
        expect(Account.safeParse(accountFrom(record)).error?.issues ?? []).toEqual([]);
      }),
    );
  });

  test('parts come to the whole', () => {
    fc.assert(
      fc.property(day, (record) => {
        const { people, stays, horses, stages, lessons } = accountFrom(record);
        expect(sum(people.map(({ ms }) => ms))).toBe(sum(stays.map(({ ms }) => ms)));
        expect(sum(people.map((one) => one.stays))).toBe(stays.length);
        for (const stay of stays) expect(stay.ms).toBeGreaterThanOrEqual(0);
        for (const horse of horses) {
          const worked = sum(horse.days.map(({ ms }) => ms));
          expect(worked).toBe(horse.lessonMs + horse.waitingMs);
          const held = lessons.filter(
            (one) => one.state === 'held' && one.horses.some((h) => h.horse === horse.horse),
          );
          expect(horse.lessons).toBeLessThanOrEqual(
            sum(held.map((one) => one.horses.filter((h) => h.horse === horse.horse).length)),
          );
          // Lessons at the same time count once, so their lengths, or what was said instead, are the most it can be.
          const most = held.map((one) =>
            Math.max(one.minutes, ...minutesSaid(record, one.lesson, horse.horse)),
          );
          expect(horse.lessonMs).toBeLessThanOrEqual(sum(most) * 60_000);
        }
        for (const what of ['stage', 'horse', 'person'] as const) {
          const by = stagesBy(stages, what);
          expect(sum(by.map(({ totalMs }) => totalMs))).toBe(sum(stages.map(({ totalMs }) => totalMs)));
          for (const one of by) expect(one.shortestMs * one.count).toBeLessThanOrEqual(one.totalMs);
        }
      }),
    );
  });

  test('a correction said twice comes to the same, and what was tapped is never lost', () => {
    fc.assert(
      fc.property(day, (record) => {
        const once = accountFrom(record);
        expect({ ...accountFrom(record, 2), corrections: once.corrections }).toEqual(once);
        const without = accountOfDay(record, {
          barn: smallBoard().barn,
          corrections: [],
          workedBefore: () => [],
        });
        for (const stay of without.stays) {
          const after = once.stays.find(({ id }) => id === stay.id);
          const shown = after?.correction ? after.tapped : after && { from: after.from, until: after.until };
          expect(shown).toEqual({ from: stay.from, until: stay.until });
        }
      }),
    );
  });
});

test('days come to the same however they are put together', () => {
  const days = fc.array(ops(opFact, 12), { minLength: 1, maxLength: 5 });
  fc.assert(
    fc.property(days, fc.nat(), (afternoons, pick) => {
      const accounts = afternoons.map((taps, i) => accountFrom(recordFrom(taps, `2026-05-1${i}`)));
      const cut = pick % (accounts.length + 1);
      const whole = together(accounts);
      expect(together([together(accounts.slice(0, cut)), together(accounts.slice(cut))])).toEqual(whole);
      expect(sum(whole.people.map(({ ms }) => ms))).toBe(
        sum(accounts.flatMap(({ people }) => people.map(({ ms }) => ms))),
      );
      expect(sum(whole.horses.map(({ lessonMs }) => lessonMs))).toBe(
        sum(accounts.flatMap(({ horses }) => horses.map(({ lessonMs }) => lessonMs))),
      );
    }),
    { numRuns: 60 },
  );
});
