/** The thread that makes forecasts: a board in, a forecast out. */
import { parentPort } from 'node:worker_threads';
import { forecast } from '#core/plan/forecast.ts';
import { planInput } from '#core/plan/input.ts';
import type { Learned } from '#core/plan/learned.ts';
import type { Asked, Made, Taught } from './forecastThread.ts';

let learned: Learned | null = null;

parentPort?.on('message', (message: Asked | Taught) => {
  if ('learned' in message) learned = message.learned;
  else parentPort?.postMessage(answer(message));
});

function answer({ ask, board, at }: Asked): Made {
  try {
    return { ask, forecast: forecast(planInput(board, at, learned)) };
  } catch (error) {
    return { ask, failure: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  }
}
