/** What is wrong with the hub, and what to do, in one sentence or two. */
import type { HubTrouble } from '#core/day/alerts/alert.ts';
import { barnTimeAt } from '#core/time/barnClock.ts';
import { minutesUntil } from '#core/time/countdown.ts';
import type { Session } from '../state/session.svelte.ts';
import { say } from '../words.ts';
import { clockTime } from './format.ts';

export function hubSays(session: Session, trouble: HubTrouble): string {
  const { connection, board } = session;
  const { readOnly = null, clockJump = null } = connection.status ?? {};
  const taps = board.waiting.length;
  switch (trouble) {
    case 'unreadable':
      return say.LINK.unreadable;
    case 'readOnly':
      return readOnly
        ? `${say.HUB_STATUS.readOnly[readOnly.why]} ${taps > 0 ? say.LINK.held(taps) : ''}`
        : '';
    case 'away':
      return awayText(session);
    case 'clockJump':
      return clockJump ? say.clockJumped(clockJump) : '';
    case 'tornTail':
      return say.HUB_STATUS.tornTail;
  }
}

function awayText({ connection, board, clock, ticker }: Session): string {
  const { heardAt } = connection;
  const zone = board.shown?.barn.zone;
  if (heardAt === null || zone === undefined) return '';
  const at = clockTime(clock.barnClock ? barnTimeAt(clock.barnClock, heardAt) : heardAt, zone);
  return say.BOARD.awayNow(at, Math.max(0, minutesUntil(ticker.hub, heardAt)));
}
