/** The thread that makes forecasts: a board in, a forecast out. */
import { parentPort } from 'node:worker_threads';
import { forecast } from '#core/plan/forecast.ts';
import { planInput } from '#core/plan/input.ts';
import type { Asked, Made } from './forecastThread.ts';

parentPort?.on('message', ({ ask, board, at }: Asked) => {
  parentPort?.postMessage(answer(ask, board, at));
});

function answer(ask: number, board: Asked['board'], at: number): Made {
  try {
    return { ask, forecast: forecast(planInput(board, at)) };
  } catch (error) {
    return { ask, failure: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  }
}
