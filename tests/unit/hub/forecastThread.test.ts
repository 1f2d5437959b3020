/** Forecasts in a thread of their own are the same as here, taught or not. A real thread. */
import { afterEach, beforeEach, expect, test } from 'vitest';
import { forecast } from '#core/plan/forecast.ts';
import { planInput } from '#core/plan/input.ts';
import { learnFrom, NO_HISTORY } from '#core/plan/learned.ts';
import { ForecastThread } from '../../../hub/forecastThread.ts';
import { NOON, smallBoard } from '../../properties/day-arbitraries.ts';

let thread: ForecastThread;
beforeEach(() => (thread = new ForecastThread()));
afterEach(() => thread.stop());

const board = smallBoard();
const observations = Array.from({ length: 20 }, () => ({
  stage: 'coat' as const,
  horse: 'fern',
  person: 'ada',
  minutes: 25,
}));
const learned = learnFrom(board.barn, { ...NO_HISTORY, observations });

test('the same board at the same moment: the same forecast', async () => {
  expect(await thread.forecast(board, NOON)).toEqual(forecast(planInput(board, NOON)));
});

test('what is learned counts from then on, also in a thread begun anew', async () => {
  const expected = forecast(planInput(board, NOON, learned));
  expect(expected).not.toEqual(forecast(planInput(board, NOON)));
  await thread.forecast(board, NOON);
  thread.learn(learned);
  expect(await thread.forecast(board, NOON)).toEqual(expected);
  await thread.stop();
  expect(await thread.forecast(board, NOON)).toEqual(expected);
});
