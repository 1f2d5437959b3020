/**
 * From a frame's text to the hub's message. A page is served by its own hub, which has parsed everything it says, and a hub
 * that speaks another version says so. So a frame is only looked at for what it is; the whole schema, and zod with it,
 * would cost a slow tablet more than all the rest of an entry.
 */
import { own } from '#core/barn/basics.ts';
import { unpacked } from '#core/wire/compact.ts';
import type { FromHub } from '#core/wire/messages.ts';

/** What each message must carry to be taken. */
const CARRIES: { readonly [S in FromHub['say']]: readonly (keyof Extract<FromHub, { say: S }>)[] } = {
  welcome: ['journal', 'seq', 'board', 'landed', 'entries', 'clock', 'build'],
  entries: ['entries'],
  answered: ['answers'],
  pong: ['t1', 't2', 't3'],
  forecast: ['forecast'],
  considered: ['ask'],
  suggested: ['suggestion'],
  standIns: ['ask'],
  status: ['version'],
  gateAnswer: ['ask', 'outcome'],
  tabletsKnown: ['tablets'],
  refused: ['code'],
};

/** The message in `text`; null when it is none that this page knows. Never throws. */
export function heard(text: string): FromHub | null {
  try {
    const data = unpacked(JSON.parse(text));
    return isFromHub(data) ? data : null;
  } catch {
    return null;
  }
}

function isFromHub(data: unknown): data is FromHub {
  if (typeof data !== 'object' || data === null) return false;
  const said = 'say' in data && typeof data.say === 'string' ? data.say : '';
  const asked: readonly string[] | undefined = own(CARRIES, said);
  return asked !== undefined && asked.every((key) => key in data);
}
