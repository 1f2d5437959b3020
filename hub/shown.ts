/** What each role is shown of what there is. */
import type { Board } from '#core/day/board.ts';
import type { Entry } from '#core/day/ops.ts';
import type { Role } from '#core/day/places.ts';
import { redactBoard, redactEntry } from '#core/day/redact.ts';
import type { Forecast } from '#core/plan/model.ts';
import type { FromHub, Welcome } from '#core/wire/messages.ts';

export function entriesFor(role: Role, entries: readonly Entry[]): FromHub {
  return { say: 'entries', entries: entries.map((entry) => redactEntry(entry, role)) };
}

/** Who is behind is for the coordinator. */
export function forecastFor(role: Role, forecast: Forecast): FromHub {
  return { say: 'forecast', forecast: role === 'coordinator' ? forecast : { ...forecast, hands: {} } };
}

/** `missed`: all the tablet has not got; null: it needs the whole board. */
export function welcomeFor(
  role: Role,
  how: Pick<Welcome, 'journal' | 'seq' | 'clock' | 'demo' | 'build' | 'addresses' | 'landed'>,
  board: Board,
  missed: readonly Entry[] | null,
): Welcome {
  return {
    say: 'welcome',
    ...how,
    board: missed ? null : redactBoard(board, role),
    entries: (missed ?? []).map((entry) => redactEntry(entry, role)),
  };
}
