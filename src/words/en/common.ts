/** What every screen says: of the link to the hub and of the hub itself, reasons, stages, lengths of time. */
import type { Hold } from '../../barn/horse.ts';
import type { Clearance, WorkStage } from '../../barn/stage.ts';
import type { Readiness } from '../../day/views/words.ts';
import type { Unplanned } from '../../plan/model.ts';
import type { REFUSALS, Status } from '../../wire/messages.ts';

export const STAGE_WORK: Record<WorkStage, string> = {
  feet: 'Feet',
  coat: 'Coat',
  tack: 'Tack',
  untack: 'Tack off',
  cool: 'Cool',
  look: 'Look over',
  away: 'Put away',
};

/** What finishing a stage makes of the horse. */
export const STAGE_DONE: Record<WorkStage, string> = {
  feet: 'Feet checked',
  coat: 'Coat ready',
  tack: 'Tacked',
  untack: 'Untacked',
  cool: 'Cooled',
  look: 'Looked over',
  away: 'Put away',
};

export const READINESS_WORD: Record<Readiness, string> = {
  ready: 'Ready',
  onTime: 'On time',
  tight: 'Tight',
  late: 'Late',
  nobody: 'Nobody on it',
  noHorse: 'No horse',
  pulled: 'Pulled',
};

export const UNPLANNED: Record<Unplanned, string> = {
  nobodyHere: 'Nobody is here yet',
  nobodyCleared: 'Nobody here is cleared for it',
  nobodyFree: 'Nobody has time for it before going home',
  badLength: 'The board cannot tell how long it takes: look at the barn’s stage minutes',
};

export const HOLD_WORD: Record<Hold['kind'], string> = {
  today: 'off for today',
  instructor: 'until an instructor releases it',
  farrier: 'until the farrier has seen it',
  vet: 'until the vet has seen it',
};

export const CLEARANCE_WORD: Record<Clearance, string> = {
  feet: 'feet',
  coat: 'coat',
  tack: 'tack',
  lead: 'leading',
  'side-walk': 'side-walking',
  experienced: 'experienced',
};

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

/** A number with its noun: `counted(1, 'tap', 'taps')` is `1 tap`. */
export function counted(count: number, one: string, many: string): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** A length in words, from whole minutes: `4 min`, `2 h 5 min`, `3 days`. */
export function span(minutes: number): string {
  const size = Math.abs(minutes);
  if (size < 60) return `${size} min`;
  if (size < 24 * 60)
    return size % 60 === 0 ? `${Math.floor(size / 60)} h` : `${Math.floor(size / 60)} h ${size % 60} min`;
  return counted(Math.floor(size / (24 * 60)), 'day', 'days');
}

/** Minutes until something, negative once it is past. */
export function inMinutes(minutes: number): string {
  if (minutes === 0) return 'now';
  return minutes > 0 ? `in ${span(minutes)}` : `${span(minutes)} ago`;
}

/** As `inMinutes`, for a tile: above the hour without the word for minutes. */
export function inMinutesShort(minutes: number): string {
  const size = Math.abs(minutes);
  if (size < 60 || size >= 24 * 60) return inMinutes(minutes);
  const long = `${Math.floor(size / 60)} h ${String(size % 60).padStart(2, '0')}`;
  return minutes > 0 ? `in ${long}` : `${long} ago`;
}

export const BOARD = {
  fault: 'This board has stumbled.',
  mending: 'Something went wrong on this board. It starts again by itself; taps are kept.',
  mended: (time: string) =>
    `Something went wrong on this board at ${time}. It has started again by itself; taps were kept.`,
  faultHint: 'It starts again by itself in a few seconds. Taps that were made are kept.',
  title: 'Aisle Board',
  loading: 'Looking for the hub…',
  noHub: 'The hub does not answer yet. This page keeps trying.',
  noHubHint: 'Check that the hub box is on and that this tablet is on the barn’s network.',
  awayNow: (at: string, minutes: number) =>
    `The hub is away. This is how things stood at ${at}, ${minutes === 0 ? 'a moment' : span(minutes)} ago.`,
  kept: (taps: number) =>
    taps === 0
      ? 'Taps are kept and sent when it is back.'
      : `${counted(taps, 'tap', 'taps')} kept, sent when the hub is back.`,
  notKept: 'This browser cannot keep taps over a reload. Leave this page open until the hub has them.',
  demo: 'Demo barn: invented horses, pretend time.',
  startOwn: 'Start my own barn',
  dismiss: 'Close',
  more: (count: number) => `${count} more`,
  undo: 'Undo',
  cancel: 'Not now',
  back: 'Back',
  menu: 'Board menu',
  noDay: 'No day is open yet.',
  noDayHint: 'The coordinator adds the first lesson.',
  forecastAge: (age: string) => `Forecast is ${age} old`,
  noForecast: 'No forecast yet',
} as const;

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
  return byMs > 0 ? HUB_STATUS.clockAhead(by) : HUB_STATUS.clockBack(by);
}

/** A tablet that a coordinator can unlock. */
export const LOCK = {
  unlockedBy: (name: string) => `Unlocked by ${name}`,
  lockNow: 'Lock now',
  locked: 'Locked: this tablet shows the aisle.',
  unlock: 'Unlock',
  nobody: 'No coordinator has a PIN: nothing can be unlocked.',
  begin: 'Choose one',
  menu: 'Unlock as coordinator',
  notDone:
    'Only a coordinator may do that, and this tablet was locked when the hub heard of it: it was not done. Unlock it and tap again.',
} as const;

export const MENU = {
  sheet: 'Day sheet',
  add: 'Add to today',
  records: 'Records',
  files: 'Files',
  paper: 'Paper',
  end: 'Day’s end',
  byStall: 'By stall',
  byUrgency: 'Most urgent first',
  changePlace: 'Change what this tablet shows',
  glass: 'Measure this glass',
  theme: 'Light or dark',
  themes: { clock: 'Dark at night', day: 'Always light', night: 'Always dark' },
  fullScreen: 'Fill the screen',
  language: 'Language',
  languageLater: 'The language changes the next time this page is loaded. The hub does not answer just now.',
} as const;
