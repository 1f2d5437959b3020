/** What is wrong with the hub, and what to do, in one sentence or two. */
import type { HubTrouble } from '#core/day/alerts/alert.ts';
import { barnTimeAt } from '#core/time/barnClock.ts';
import { minutesUntil } from '#core/time/countdown.ts';
import type { Session } from '../state/session.svelte.ts';
import { say } from '../words.ts';
import { clockTime } from './format.ts';

export function hubSays(session: Session, trouble: HubTrouble): string {
  const { connection, board } = session;
  if (trouble === 'unreadable') return say.LINK.unreadable;
  if (trouble === 'away') return awayText(session);
  if (!connection.status) return '';
  // Its words come after the first picture, with how boards change.
  return board.play?.explainHub(trouble, connection.status, board.waiting.length) ?? '';
}

function awayText({ connection, board, clock, ticker }: Session): string {
  const { heardAt } = connection;
  const zone = board.shown?.barn.zone;
  if (heardAt === null || zone === undefined) return '';
  const at = clockTime(clock.barnClock ? barnTimeAt(clock.barnClock, heardAt) : heardAt, zone);
  return say.BOARD.awayNow(at, Math.max(0, minutesUntil(ticker.hub, heardAt)));
}
