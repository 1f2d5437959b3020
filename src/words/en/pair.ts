/** Letting a tablet into the barn, and a coordinator to the board. */
import type { GATE_REFUSALS } from '../../wire/gate.ts';
import { counted } from './common.ts';

export const PAIR_PAGE = 'Pair a tablet · Aisle Board';
export const UNLOCK_PAGE = 'Unlock · Aisle Board';

/** A wait in words, from ms: whole minutes above one, else seconds. */
export function sayWait(ms: number): string {
  const seconds = Math.ceil(ms / 1000);
  return seconds <= 60
    ? counted(seconds, 'second', 'seconds')
    : counted(Math.ceil(seconds / 60), 'minute', 'minutes');
}

export const PAIR = {
  title: 'Pair this tablet',
  hint: 'Ask the coordinator for a code: Coordinator, Tablets, New code. For the first tablet of a barn the hub’s own screen shows one.',
  again: 'This barn has no coordinator with a PIN. Enter the code that the hub’s own screen shows now.',
  code: 'Pairing code',
  wrong: 'That is not the code, or it is more than five minutes old. Ask for a new one.',
  wait: (ms: number) =>
    `Too many wrong codes. Wait ${sayWait(ms)}, or hold this tablet’s camera to the drawing of a new code.`,
  noHub: 'The hub did not answer. Try again when it is back.',
  asking: 'Asking the hub…',
} as const;

export const PIN_PAD = {
  erase: 'Erase',
  done: 'OK',
  entered: (count: number) => counted(count, 'digit', 'digits'),
} as const;

export const FIRST = {
  title: 'Who coordinates here?',
  hint: 'A coordinator unlocks any tablet with a PIN. Others can be added later.',
  name: 'Your name',
  next: 'Next',
  choose: (name: string) => `${name}, choose a PIN of 6 to 12 digits`,
  repeat: 'The same PIN once more',
  different: 'Those were two different PINs. Choose again.',
} as const;

export const UNLOCK = {
  title: 'Unlock as coordinator',
  who: 'Who are you?',
  pin: (name: string) => `${name}, your PIN`,
  hint: 'After two minutes without a touch this tablet locks again by itself.',
  forgotten: 'Forgotten? Another coordinator can give you a new PIN, or whoever looks after the hub.',
  cancel: 'Not now',
} as const;

export function sayGateRefusal(why: (typeof GATE_REFUSALS)[number], waitMs: number): string {
  switch (why) {
    case 'wrongPin':
      return waitMs > 0 ? `That is not the PIN. Wait ${sayWait(waitMs)}.` : 'That is not the PIN.';
    case 'wait':
      return `Too many wrong PINs. Wait ${sayWait(waitMs)}, then try again.`;
    case 'weakPin':
      return 'That PIN is too easy to guess: at least 6 digits, not all the same, not counting up or down.';
    case 'notAllowedHere':
      return 'This tablet is locked. Unlock it with a coordinator’s PIN first.';
    case 'unknown':
      return 'That is not on the list any more.';
    case 'needsConsole':
      return 'This tablet was not paired with a code from the hub’s own screen.';
    case 'lastPin':
      return 'That is the last PIN there is. Give somebody else one first.';
    case 'notWritten':
      return 'The hub could not write it down. Try again.';
  }
}

export const TABLET_LIST = {
  title: 'Tablets of this barn',
  newCode: 'New code',
  codeHint: 'Enter it on the new tablet, or hold its camera to the drawing. It pairs one tablet.',
  codeLasts: (minutes: number) =>
    minutes < 1
      ? 'It counts for less than a minute.'
      : `It counts for ${counted(minutes, 'minute', 'minutes')}.`,
  codeOver: 'This code is over. Make a new one.',
  tablet: (name: string) => `Tablet ${name}`,
  here: 'here',
  seen: (when: string) => `last seen ${when}`,
  this: 'this one',
  nowhere: 'does not hang anywhere yet',
  rename: 'Name',
  change: 'Change',
  strikeOff: 'Strike off',
  strikeOffSure: (name: string) =>
    `Strike off tablet ${name}? Its board goes dark at once, and it needs a new code to come back. For a tablet that is lost, or leaves the barn.`,
  strikeOffNow: 'Strike it off',
  save: 'Save',
  addresses: 'Where tablets find this hub',
} as const;

export const PINS = {
  title: 'Coordinators’ PINs',
  hint: 'Coordinators are added under Records, staff.',
  has: 'has a PIN',
  hasNot: 'has no PIN',
  set: 'Give a PIN',
  change: 'New PIN',
  take: 'Take PIN away',
  takeSure: (name: string) =>
    `Take ${name}’s PIN away? ${name} can unlock no tablet any more until somebody gives a new one.`,
  takeNow: 'Take it away',
  choose: (name: string) => `A PIN for ${name}, 6 to 12 digits`,
} as const;

export const BACKUP = {
  title: 'Backup',
  hint: 'The whole barn in one file, with the riders’ records: keep it where only the coordinator can get at it.',
  download: 'Download a backup',
} as const;
