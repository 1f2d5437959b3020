/** What calls for attention of the hub itself. */
import type { Status } from '../../wire/messages.ts';
import type { HubAlert } from './alert.ts';

export type HubSeen = {
  /** Its own words on how it is; null: it is away, or has not said. */
  readonly status: Pick<Status, 'readOnly' | 'tornTail' | 'clockJump'> | null;
  /** Since when it has not been heard, hub time in ms; null: it is there. */
  readonly awaySince: number | null;
  /** It says what this page cannot read. */
  readonly isUnreadable: boolean;
};

export function hubAlerts({ status, awaySince, isUnreadable }: HubSeen): HubAlert[] {
  const { readOnly = null, tornTail = null, clockJump = null } = status ?? {};
  const alert = (kind: HubAlert['kind'], id: HubAlert['id'], since: number): HubAlert => ({
    kind,
    id,
    key: `hub:${id}`,
    since,
  });
  return [
    ...(isUnreadable ? [alert('notKept', 'unreadable', 0)] : []),
    ...(readOnly ? [alert('notKept', 'readOnly', readOnly.since)] : []),
    ...(awaySince === null || isUnreadable ? [] : [alert('away', 'away', awaySince)]),
    ...(clockJump ? [alert('damage', 'clockJump', clockJump.at)] : []),
    ...(tornTail ? [alert('damage', 'tornTail', 0)] : []),
  ];
}
