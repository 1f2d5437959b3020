/** How often a day's boards called for attention, tapped or not, against what one person can take. */
import { advise } from '../care/advise.ts';
import type { CareRules } from '../care/rulesOfCare.ts';
import type { AlertKind } from '../day/alerts/alert.ts';
import { KIND_OF } from '../day/alerts/door.ts';
import { ANEW_AFTER_MS } from '../day/alerts/raised.ts';
import { HUB_DEVICE } from '../day/hubDevice.ts';
import { HOUR_MS, MINUTE_MS } from '../time/units.ts';
import type { DayAlerts } from './account.ts';
import { ofKind, told, type DayRecord } from './record.ts';

/**
 * What an operator who does nothing else can take: 5 an hour on average, 15 in the worst hour; 10 in ten minutes are a flood.
 * EEMUA 191, as a training sheet on it gives them. People in a barn have a horse in hand: well below is the aim.
 */
export const ENDURED = { anHour: 5, inTheWorstHour: 15, flood: 10 } as const;
export const FLOOD_MS = 10 * MINUTE_MS;

type Call = DayAlerts['calls'][number];

/**
 * Of one day. A finding on a horse while another of it still calls is the same call, and so is one that comes back at once. That
 * the hub was away only the tablets know: it is not counted.
 */
export function alertsOf({ date, entries }: DayRecord, care: CareRules): DayAlerts {
  const all = told(entries);
  const seen = new Map<string, number>();
  const findings = ofKind(all, 'findingSeen').flatMap(({ at, fact }): Call[] => {
    const { level } = advise([fact.finding], care);
    if (level === 'clear') return [];
    const isNew = at - (seen.get(fact.horse) ?? -Infinity) >= ANEW_AFTER_MS;
    seen.set(fact.horse, at);
    return isNew ? [{ at, kind: KIND_OF[level] }] : [];
  });
  const hands = ofKind(all, 'helpAsked').map(({ at, fact }): Call => ({ at, kind: fact.call }));
  const raised = ofKind(all, 'alertsRaised').flatMap(({ at, fact }) =>
    fact.alerts.map(({ alert }): Call => ({ at, kind: alert })),
  );
  const notDone = entries
    .filter(({ why, device }) => why !== null && device !== HUB_DEVICE)
    .map(({ at }): Call => ({ at, kind: 'notDone' }));
  // What is typed in from paper, or put right, is tapped when the day is over.
  const taps = entries.filter(
    ({ device, facts }) =>
      device !== HUB_DEVICE &&
      !facts.some(({ kind }) => kind === 'stagesWrittenDown' || kind === 'ledgerCorrected'),
  );
  return {
    date,
    ms: Math.max(0, (taps.at(-1)?.at ?? 0) - (taps[0]?.at ?? 0)),
    calls: [...findings, ...hands, ...raised, ...notDone].sort((a, b) => a.at - b.at),
  };
}

export type AlertLoad = {
  readonly count: number;
  /** On average over the days, from each one's first tap to its last; a day counts for an hour at least. */
  readonly anHour: number;
  /** The most in any sixty and in any ten minutes. */
  readonly worstHour: number;
  readonly worstTenMinutes: number;
  /** How many of each kind, the most urgent first. */
  readonly kinds: ReadonlyMap<AlertKind, number>;
};

export function alertLoad(days: readonly DayAlerts[]): AlertLoad {
  const calls = days.flatMap((day) => day.calls);
  const hours = days.reduce((sum, { ms }) => sum + Math.max(1, ms / HOUR_MS), 0);
  const kinds = new Map<AlertKind, number>();
  for (const { kind } of calls) kinds.set(kind, (kinds.get(kind) ?? 0) + 1);
  return {
    count: calls.length,
    anHour: hours === 0 ? 0 : calls.length / hours,
    worstHour: Math.max(0, ...days.map((day) => mostWithin(day.calls, HOUR_MS))),
    worstTenMinutes: Math.max(0, ...days.map((day) => mostWithin(day.calls, FLOOD_MS))),
    kinds,
  };
}

/** `calls` in order of time. */
function mostWithin(calls: readonly Call[], span: number): number {
  let from = 0;
  let most = 0;
  for (const [i, { at }] of calls.entries()) {
    while (at - (calls[from]?.at ?? at) >= span) from += 1;
    most = Math.max(most, i - from + 1);
  }
  return most;
}
