/** The thread that looks ahead: a board in, a forecast out, and then, when asked, moves that would help. */
import { parentPort } from 'node:worker_threads';
import { forecast } from '#core/plan/forecast.ts';
import { planInput } from '#core/plan/input.ts';
import type { Learned } from '#core/plan/learned.ts';
import type { Asked, Made, Taught } from './forecastThread.ts';
import { MoveSearch } from './moveSearch.ts';

let learned: Learned | null = null;
const search = new MoveSearch({
  now: () => performance.now(),
  later: (slice) => void setImmediate(slice),
});

parentPort?.on('message', (message: Asked | Taught) => {
  if ('learned' in message) learned = message.learned;
  else answer(message);
});

function answer({ ask, board, at, alsoMoves }: Asked): void {
  const say = (made: Made): void => parentPort?.postMessage(made);
  const failed = (error: unknown): void => {
    say({ ask, failure: error instanceof Error ? (error.stack ?? error.message) : String(error) });
  };
  try {
    const input = planInput(board, at, learned);
    say({ ask, forecast: forecast(input) });
    if (alsoMoves) search.begin(input, (found) => say({ ask, found }), failed);
  } catch (error) {
    failed(error);
  }
}
