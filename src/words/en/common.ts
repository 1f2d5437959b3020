/** What every screen says: of the link to the hub, stages, lengths of time. */
import type { Hold } from '../../barn/horse.ts';
import type { Clearance, WorkStage } from '../../barn/stage.ts';
import type { Readiness } from '../../day/views/words.ts';

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

/** The hub's clock was set by `byMs`. */
/** A tablet that a coordinator can unlock. */
export const LOCK = {
  unlockedBy: (name: string) => `Unlocked by ${name}`,
  lockNow: 'Lock now',
  locked: 'Locked: this tablet shows the aisle.',
  unlock: 'Unlock',
  nobody: 'No coordinator has a PIN: nothing can be unlocked.',
  begin: 'Choose one',
} as const;
