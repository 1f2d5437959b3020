/** Writes down what begins to call for attention without a tap, so that the day's end can count it. */
import { deskAlerts } from '#core/day/alerts/desk.ts';
import { hubAlerts } from '#core/day/alerts/hub.ts';
import { look, standingSince, type Standing } from '#core/day/alerts/raised.ts';
import type { Raised } from '#core/day/alerts/record.ts';
import type { Board } from '#core/day/board.ts';
import type { Entry, OpFact } from '#core/day/ops.ts';
import type { Forecast } from '#core/plan/model.ts';
import type { Status } from '#core/wire/messages.ts';

/** People see a call within a second; for counting them by the hour this is enough. */
const LOOK_EVERY_MS = 10_000;

/** As many as one fact holds. */
const MOST_AT_ONCE = 200;

export type AlertWatchParts = {
  readonly board: () => Board;
  readonly forecast: () => Forecast | null;
  readonly status: () => Status;
  /** Those of the last hours, oldest first. */
  readonly lastEntries: readonly Entry[];
  readonly barnNow: () => number;
  readonly bring: (fact: OpFact) => Promise<void>;
};

/** Looks every few seconds until the answer is called. */
export function watchAlerts(parts: AlertWatchParts): () => void {
  const { board, forecast, status, barnNow, bring } = parts;
  let standing: Standing = standingSince(raisedIn(parts.lastEntries), barnNow());
  /** Seen while nothing could be written down. */
  let owed: readonly Raised[] = [];
  const once = (): void => {
    const { day } = board();
    if (day.date === null) return;
    const now = barnNow();
    const alerts = [
      ...deskAlerts(board(), forecast(), now),
      ...hubAlerts({ status: status(), awaySince: null, isUnreadable: false }),
    ];
    const seen = look(standing, alerts, now);
    standing = seen.standing;
    owed = [...owed, ...seen.raised].slice(0, MOST_AT_ONCE);
    if (owed.length === 0 || status().readOnly) return;
    void bring({ kind: 'alertsRaised', alerts: [...owed] });
    owed = [];
  };
  const timer = setInterval(once, LOOK_EVERY_MS);
  return () => clearInterval(timer);
}

function raisedIn(entries: readonly Entry[]): Raised[] {
  return entries.flatMap(({ facts }) =>
    facts.flatMap((fact) => (fact.kind === 'alertsRaised' ? fact.alerts : [])),
  );
}
