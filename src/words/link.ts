/** What a board says of its line to the hub and of the browser it runs in, in English. */
import { span } from './en.ts';
import type { Status } from '../wire/messages.ts';

export const LINK = {
  unreadable:
    'The hub says something this page cannot read: it may be newer. This page loads anew when nobody has touched it for a minute. Taps are kept.',
  held: (taps: number) => (taps === 1 ? '1 tap is kept here.' : `${taps} taps are kept here.`),
} as const;

/** Shortest span said, in minutes: a clock that was set by seconds is not worth a zero. */
const LEAST_MINUTES = 1;

/** The hub's clock was set by `byMs`. */
export function clockJumped({ byMs }: NonNullable<Status['clockJump']>): string {
  const by = span(Math.max(LEAST_MINUTES, Math.round(Math.abs(byMs) / 60_000)));
  return byMs > 0
    ? `The hub’s clock was set ${by} ahead, and every countdown with it.`
    : `The hub’s clock was set back by ${by}, and every countdown with it.`;
}

/** What a tablet can do where it is, and what it lacks: said where somebody sets it up. */
export const TABLET_CAN = {
  title: 'What this tablet can do',
  reload: 'It opens with the last board, and the board’s age, also while the hub is away.',
  awake: 'It keeps its screen on by itself.',
  keeping: 'It keeps taps until the hub has them, also when it is switched off.',
} as const;

export const TABLET_LACKS = {
  reload:
    'On this address it cannot open the board while the hub is away. Leave this page open and do not reload it: as it is, it goes on and keeps taps.',
  notYet: 'It will open without the hub from the next visit on.',
  awake: 'It cannot keep its screen on here. Set the tablet’s own screen timeout to never.',
  keeping:
    'This browser keeps no taps over a reload. Taps made while the hub is away are lost if the page is closed.',
} as const;
