/** The thread that learns: past days and today in, what they teach out. */
import { parentPort, workerData } from 'node:worker_threads';
import { dayHistory } from '#core/plan/history.ts';
import { learnFrom, NO_HISTORY, type History, type Share } from '#core/plan/learned.ts';
import type { Lesson, Taught } from './learning.ts';

const { board, past, days, today } = workerData as Lesson;

// Horses, stalls and rules as they are now: a day put by has none of them.
const histories = days.map(({ day, entries }) => dayHistory({ ...board, day }, entries).history);
const known = past ?? histories.reduce(together, NO_HISTORY);
// Who has not come yet may still come, so a day under way says nothing of that.
const open = { ...dayHistory(board, today).history, noShows: NO_HISTORY.noShows };
parentPort?.postMessage({
  past: known,
  learned: learnFrom(board.barn, together(known, open)),
} satisfies Taught);

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
