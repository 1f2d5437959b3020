/** What the hub says of itself, and why it does not take what a tablet sent. */
import type { REFUSALS, Status } from '../../wire/messages.ts';
import { span } from './common.ts';

export const HUB_SAYS: Record<(typeof REFUSALS)[number], string> = {
  malformed: 'The hub could not read what this tablet sent. Reload this page.',
  helloFirst: 'The hub did not know this tablet. It is saying hello again.',
  otherVersion: 'The hub has a newer board. This page will reload when nobody is using it.',
  notAllowedHere: 'This tablet may not do that. Ask the coordinator.',
  notADemo: 'This barn is already your own.',
  tooMuch: 'This tablet sent more than the hub takes at once. It will send the rest again.',
  readOnly: 'The hub cannot write anything down just now. Taps are kept here and sent when it can.',
  notPaired: 'The hub does not know this tablet. Ask the coordinator for a pairing code.',
};

/** What the hub says of itself on every board: what is so, and what to do. */
export const HUB_STATUS = {
  readOnly: {
    full: 'The hub’s disk is full, so it cannot write anything down. Taps are kept on each tablet. Ask whoever looks after the hub to make room.',
    writeProtected:
      'The hub’s disk may only be read, so nothing can be written down. Taps are kept on each tablet. Ask whoever looks after the hub.',
    failing:
      'The hub’s disk fails, so nothing can be written down. Taps are kept on each tablet. Ask whoever looks after the hub, soon.',
  },
  tornTail:
    'The hub was switched off in the middle of writing. The last taps may be missing: look at the tiles.',
  clockAhead: (by: string) => `The hub’s clock was set ${by} ahead, and every countdown with it.`,
  clockBack: (by: string) => `The hub’s clock was set back by ${by}, and every countdown with it.`,
} as const;

/** Shortest span said, in minutes: a clock that was set by seconds is not worth a zero. */
const LEAST_MINUTES = 1;

/** The hub’s clock was set by `byMs`. */
export function clockJumped({ byMs }: NonNullable<Status['clockJump']>): string {
  const by = span(Math.max(LEAST_MINUTES, Math.round(Math.abs(byMs) / 60_000)));
  return byMs > 0 ? HUB_STATUS.clockAhead(by) : HUB_STATUS.clockBack(by);
}
