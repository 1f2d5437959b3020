/** The day under way teaches too. Against `dayHistory` and `learnFrom` themselves, on a simulated day, in a real thread. */
import { expect, test } from 'vitest';
import { evolve } from '#core/day/evolve.ts';
import type { Entry } from '#core/day/ops.ts';
import { dayHistory } from '#core/plan/history.ts';
import { learnFrom, type Learned } from '#core/plan/learned.ts';
import { simulateDay } from '../../../demo/simulate.ts';
import { Learning, TODAY_LEAST_ENTRIES } from '../../../hub/learning.ts';

const DAY = simulateDay({ seed: 3, date: '2026-06-13' });
const HALF = DAY.entries.slice(0, Math.floor(DAY.entries.length / 2));

test('today’s entries are learned from as they come, without those who may still come', async () => {
  let entries: readonly Entry[] = HALF;
  const board = () => entries.reduce(evolve, DAY.start);
  const expected = (): Learned => {
    const { history } = dayHistory(board(), entries);
    return learnFrom(DAY.start.barn, { ...history, noShows: { count: 0, of: 0 } });
  };
  const learned: Learned[] = [];
  const learning = new Learning({
    storage: { days: () => Promise.resolve({ days: [], damaged: [] }) },
    board,
    today: () => entries,
    learned: (one) => void learned.push(one),
    log: (line) => expect.fail(line),
  });
  await learning.learn();
  expect(learned).toEqual([expected()]);
  expect(dayHistory(board(), entries).history.observations.length).toBeGreaterThan(5);

  // Too little is new to be worth a thread.
  entries = DAY.entries.slice(0, HALF.length + TODAY_LEAST_ENTRIES - 1);
  await learning.learnToday();
  expect(learned).toHaveLength(1);

  entries = DAY.entries.slice(0, HALF.length + TODAY_LEAST_ENTRIES);
  await learning.learnToday();
  expect(learned).toHaveLength(2);
  expect(learned.at(-1)).toEqual(expected());
  await learning.stop();
});
