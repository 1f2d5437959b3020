/** What calls for attention at an arena's door: what was found and nobody has read, calls for a hand, and who is missing beside a horse. */
import type { AdviceLevel } from '../../care/findingRules.ts';
import { MINUTE_MS } from '../../time/units.ts';
import type { Board } from '../board.ts';
import { own } from '../../barn/basics.ts';
import { unreadHorses } from '../views/findings.ts';
import { openRoles } from '../views/roles.ts';
import { helpAlerts } from './aisle.ts';
import type { BarnAlert, FindingAlert, RoleAlert } from './alert.ts';

/** So long before a lesson a role nobody has calls; earlier it is work to plan. Common practice, no source. */
export const OPEN_ROLE_CALLS_MS = 30 * MINUTE_MS;

/** At barn time `now` in ms, for this arena (null: all). */
export function doorAlerts(board: Board, now: number, arena: string | null): BarnAlert[] {
  return [...findingAlerts(board), ...helpAlerts(board, now), ...roleAlerts(board, now, arena)];
}

/** What a finding calls as, by what the barn's rules make of it. */
export const KIND_OF: Readonly<Record<AdviceLevel, FindingAlert['kind']>> = {
  'call-now': 'callNow',
  'off-today': 'offToday',
  wait: 'wait',
  'carry-on': 'carryOn',
  clear: 'carryOn',
};

export function findingAlerts(board: Board): FindingAlert[] {
  return unreadHorses(board).map((about) => ({
    kind: KIND_OF[about.advice.level],
    key: `finding:${about.horse}`,
    since: Math.min(...about.unread.map(({ at }) => at)),
    about,
  }));
}

/** By lesson: several roles open in one are mended in one place. */
export function roleAlerts(board: Board, now: number, arena: string | null): RoleAlert[] {
  const soon = openRoles(board, now).filter(
    ({ lesson, start }) =>
      start - now <= OPEN_ROLE_CALLS_MS &&
      (arena === null || own(board.day.lessons, lesson)?.arena === arena),
  );
  return [...Map.groupBy(soon, ({ lesson }) => lesson)].flatMap(([lesson, roles]): RoleAlert[] => {
    const [first] = roles;
    if (!first) return [];
    const { lessonName: name, start } = first;
    return [
      {
        kind: 'openRole',
        key: `openRole:${lesson}`,
        since: start - OPEN_ROLE_CALLS_MS,
        lesson,
        name,
        start,
        roles: roles.map(({ role }) => role),
      },
    ];
  });
}
