/** The thread that learns: past days in, what they teach out. */
import { parentPort, workerData } from 'node:worker_threads';
import { dayHistory } from '#core/plan/history.ts';
import { learnFrom, NO_HISTORY, type History, type Share } from '#core/plan/learned.ts';
import type { Lesson } from './learning.ts';

const { board, days } = workerData as Lesson;

// Horses, stalls and rules as they are now: a day put by has none of them.
const histories = days.map(({ day, entries }) => dayHistory({ ...board, day }, entries).history);
parentPort?.postMessage(learnFrom(board.barn, histories.reduce(together, NO_HISTORY)));

function together(a: History, b: History): History {
  const sum = (x: Share, y: Share): Share => ({ count: x.count + y.count, of: x.of + y.of });
  return {
    observations: [...a.observations, ...b.observations],
    changeovers: [...a.changeovers, ...b.changeovers],
    takeUps: [...a.takeUps, ...b.takeUps],
    unseenStarts: sum(a.unseenStarts, b.unseenStarts),
    noShows: sum(a.noShows, b.noShows),
  };
}
