/** During and after lessons: calls for a hand, roles, checks, riders up and down, lessons changed together, putting away. */
import type { ChangeReason } from '../../barn/lesson.ts';
import type { StillOut } from '../../day/after.ts';
import type { RoleName } from '../../day/roles.ts';
import type { Unplanned } from '../../plan/model.ts';
import { span } from './common.ts';

/** Why a piece of work stands in nobody's queue. */
export const UNPLANNED: Record<Unplanned, string> = {
  nobodyHere: 'Nobody is here yet',
  nobodyCleared: 'Nobody here is cleared for it',
  nobodyFree: 'Nobody has time for it before going home',
  badLength: 'The board cannot tell how long it takes: look at the barn’s stage minutes',
};

export const RIDE = {
  allUp: 'All up',
  allDown: 'All down',
  upSince: (name: string, time: string) => `${name}: riders up since ${time}`,
  running: (name: string) => `${name} is on`,
  until: (time: string) => `until ${time}`,
  stays: 'Leaders stay with their horses while riders are up.',
} as const;

export const ROLE_WORD: Record<RoleName, string> = { leader: 'Leader', sideWalker: 'Side-walker' };

export const ROLE = {
  title: 'Roles',
  open: 'open',
  gone: (name: string) => `${name} is not here`,
  openCount: (count: number) => (count === 1 ? '1 role open' : `${count} roles open`),
  openRoles: 'Roles nobody has',
  of: (role: string, horse: string) => `${role} of ${horse}`,
  choose: (role: string, horse: string) => `${role} of ${horse}: who?`,
  now: (name: string) => `Now: ${name}`,
  nobody: 'Nobody, for now',
  swaps: 'swap with them',
  leavesAt: (time: string) => `goes home at ${time}`,
  queued: (count: number) =>
    count === 0 ? 'nothing else' : count === 1 ? '1 piece of work' : `${count} pieces of work`,
  takes: (name: string, role: string, horse: string) => `${name}: ${role} of ${horse}`,
  frees: (role: string, horse: string) => `${role} of ${horse}: nobody for now`,
  missing: (roles: readonly RoleName[]) =>
    `no ${roles.map((role) => (role === 'leader' ? 'leader' : 'side-walker')).join(', no ')}`,
  noOne: 'Nobody else is on today’s list.',
} as const;

export const CHANGE_REASON: Record<ChangeReason, string> = {
  weather: 'Weather',
  'running-late': 'Running late',
  horses: 'Horses',
  people: 'People',
  riders: 'Riders',
  other: 'Something else',
};

export const CHANGE = {
  title: 'Change times',
  why: 'Why?',
  which: 'Which lessons?',
  onlyThis: 'Only this one',
  laterHere: (count: number) => (count === 1 ? 'This and 1 later here' : `This and ${count} later here`),
  laterAll: (count: number) => (count === 1 ? 'This and 1 later today' : `This and ${count} later today`),
  delayed: (count: number, minutes: number) =>
    minutes >= 0
      ? `${count === 1 ? 'The lesson' : `${count} lessons`} ${span(minutes)} later`
      : `${count === 1 ? 'The lesson' : `${count} lessons`} ${span(-minutes)} earlier`,
  swapWith: 'Swap with',
  swapped: (a: string, b: string) => `${a} and ${b} change times and arenas`,
  cancelled: (count: number) => (count === 1 ? 'The lesson is cancelled' : `${count} lessons are cancelled`),
  cancel: 'Cancel',
  wasAt: (time: string) => `was ${time}`,
  noOther: 'No other lesson is still to come.',
  handOver: (name: string) => `${name}’s work and roles`,
  handOverNone: 'Nothing of theirs is open.',
  workOpen: 'Work that is nobody’s now',
  proposal: 'The board proposes',
  searching: 'The board is looking for who could take it…',
} as const;

export const AFTER = {
  body: 'Back, girth, legs, mouth: was anything seen?',
  nothing: 'Nothing more seen',
  turnedOut: 'stall or turned out',
  toPutAway: (count: number) => (count === 1 ? '1 horse to put away' : `${count} horses to put away`),
  awayAt: (time: string) => `all put away at about ${time}`,
  giveOut: 'Give to who has time',
  gives: (people: readonly { name: string; horses: readonly string[] }[]) =>
    `After lessons: ${people.map(({ name, horses }) => `${name} ${horses.join(', ')}`).join('; ')}`,
  done: 'The aisle is done',
  stillOut: (count: number) => (count === 1 ? 'Still out: 1' : `Still out: ${count}`),
  out: 'Still out',
  nothingOut: 'Everything is put back.',
  what: (what: StillOut['what'], item: string | null) =>
    what === 'box' ? 'own grooming box' : what === 'halter' ? 'halter on the cross-tie' : (item ?? 'tack'),
} as const;

export const TICK = {
  ticked: (done: number, all: number) => `${done} of ${all} ticked`,
  on: 'on the horse',
  off: 'not yet',
} as const;
