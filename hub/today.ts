/** Opens each new day on the board when the barn's calendar turns. */
import type { Board } from '#core/day/board.ts';
import { wallTimeAt } from '#core/time/zone.ts';
import type { OpFact } from '#core/day/ops.ts';

/** How often the calendar is looked at: a day opens at most this much after midnight, also after the hub slept. */
const LOOK_EVERY_MS = 10_000;

export type TodayParts = {
  readonly board: () => Board;
  readonly barnNow: () => number;
  readonly bring: (fact: OpFact) => Promise<void>;
};

/** The fact that opens today, or null when it is open, or when the clock lies behind the day that is open. */
export function dayToOpen(board: Board, barnNow: number): OpFact | null {
  const { date } = wallTimeAt(barnNow, board.barn.zone);
  return board.day.date === null || board.day.date < date ? { kind: 'dayOpened', date } : null;
}

/** Opens today, then each day that comes. The answer stops it. */
export async function keepToday({ board, barnNow, bring }: TodayParts): Promise<() => void> {
  let busy = false;
  const look = async (): Promise<void> => {
    const fact = dayToOpen(board(), barnNow());
    if (!fact || busy) return;
    busy = true;
    await bring(fact).finally(() => (busy = false));
  };
  await look();
  const timer = setInterval(() => void look(), LOOK_EVERY_MS);
  return () => clearInterval(timer);
}
