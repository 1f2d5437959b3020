/**
 * What calls for attention, and which of it a board shows: one at a time, the others counted behind it. An alert is what
 * somebody has to do something about (ISA-18.2); what merely is so stands on tiles and lines and calls for nothing.
 */
import type { WorkStage } from '../../barn/stage.ts';
import { SECOND_MS } from '../../time/units.ts';
import type { RoleName } from '../roles.ts';
import type { UnreadHorse } from '../views/findings.ts';
import type { HelpLine } from '../views/help.ts';

/**
 * The most urgent first: by who may come to harm, then by how soon it is too late to mend (priority by consequence and time
 * left to act: ISA-18.2, from memory). Among the same kind the one that has waited longest.
 */
export const ALERT_KINDS = [
  // Whoever tapped stands there and believes that it is done. It is read in a moment, and does not stay first.
  'notDone',
  // A horse may be in pain now.
  'callNow',
  // Somebody at a horse cannot go on alone.
  'hand',
  // Somebody at a horse waits for a word before going on.
  'unsure',
  // What is tapped reaches nobody: every other board goes wrong from here on.
  'notKept',
  // The horse goes off its lesson, and a stand-in needs its whole preparation.
  'offToday',
  // What follows may be old. Taps are kept, so it waits for what harms somebody.
  'away',
  // After this no stand-in can be ready, should the feet show anything.
  'feetBy',
  // A rider cannot go without.
  'openRole',
  // A lesson would wait; work can still be moved.
  'behind',
  // The horse stays in until an instructor has looked: no later than its next stage.
  'wait',
  // Wants to be read; nothing waits for it.
  'carryOn',
  // Something may be missing; the tiles have been right since.
  'damage',
  // Somebody comes: only its end is still to be said.
  'answered',
] as const;
export type AlertKind = (typeof ALERT_KINDS)[number];

type Called<K extends AlertKind, Of> = Of & {
  readonly kind: K;
  /** Names it from one look to the next. */
  readonly key: string;
  /** Since when it calls, in ms. */
  readonly since: number;
};

export type FindingAlert = Called<
  'callNow' | 'offToday' | 'wait' | 'carryOn',
  { readonly about: UnreadHorse }
>;
export type HelpAlert = Called<'hand' | 'unsure' | 'answered', { readonly line: HelpLine }>;
export type FeetAlert = Called<
  'feetBy',
  { readonly horse: string; readonly prep: string; readonly name: string; readonly feetBy: number }
>;
export type RoleAlert = Called<
  'openRole',
  {
    readonly lesson: string;
    readonly name: string;
    readonly start: number;
    /** One for each place that lacks it. */
    readonly roles: readonly RoleName[];
  }
>;
export type BehindAlert = Called<
  'behind',
  {
    readonly volunteer: string;
    readonly name: string;
    readonly behindMs: number;
    /** The piece it shows on; null: not known here. */
    readonly piece: { readonly prep: string; readonly horseName: string; readonly stage: WorkStage } | null;
  }
>;
/** Of the barn and its day. */
export type BarnAlert = FindingAlert | HelpAlert | FeetAlert | RoleAlert | BehindAlert;
/** Of the hub; `id` names what is wrong. */
export type HubAlert = Called<'notKept' | 'away' | 'damage', { readonly id: HubTrouble }>;
export type HubTrouble = 'unreadable' | 'readOnly' | 'away' | 'clockJump' | 'tornTail';
/** A tap that was declined, on the tablet it was tapped on. `isFresh`: whoever tapped is likely still there. */
export type NotDoneAlert = Called<'notDone', { readonly notice: string; readonly isFresh: boolean }>;
export type Alert = BarnAlert | HubAlert | NotDoneAlert;

/** A declined tap stays first so long: time to read a sentence and close it; common practice, no source. */
export const NOT_DONE_FIRST_MS = 45 * SECOND_MS;

/** The one that calls, and those behind it in the order in which they will. */
export type Turn = { readonly shown: Alert | null; readonly waiting: readonly Alert[] };

export function inTurn(alerts: readonly Alert[]): Turn {
  const [shown = null, ...waiting] = alerts.toSorted(
    (a, b) => rank(a) - rank(b) || a.since - b.since || (a.key < b.key ? -1 : a.key > b.key ? 1 : 0),
  );
  return { shown, waiting };
}

function rank(alert: Alert): number {
  const isOld = alert.kind === 'notDone' && !alert.isFresh;
  return ALERT_KINDS.indexOf(isOld ? 'damage' : alert.kind);
}
