/** The coordinator: people, work, horses, lessons, what if, what to take back. */
import type { Presence } from '../../day/board.ts';
import type { TileStatus } from '../../day/views/aisle.ts';
import type { HeldUp } from '../../day/views/coordinator.ts';
import { STAGE_WORK, span } from './common.ts';

export const COORDINATOR_PAGE = 'Coordinator · Aisle Board';

export const DESK = {
  hands: 'Hands',
  horses: 'Horses',
  lessons: 'Lessons',
  recent: 'Undo',
  tablets: 'Tablets',
  now: 'now',
  nobodys: 'Nobody’s work',
  nobodysNone: 'All open work is in somebody’s hands.',
  behind: (span: string) => `${span} behind`,
  because: (stage: string, horse: string) => `${stage} of ${horse}`,
  inTime: (time: string) => `done ${time}, in time`,
  nothingGiven: 'nothing given',
  leading: (lesson: string) => `in ${lesson}`,
  noHands: 'Nobody is on today’s list yet.',
  someoneElse: 'Somebody else has come',
  whoElse: 'Who has come?',
  arrived: 'Is here',
  left: 'Has left',
  notComing: 'Is not coming',
  clearedFor: (what: string) => (what === '' ? 'Cleared for nothing yet' : `Cleared for ${what}`),
  work: 'Work, in order',
  noWork: 'No open work is given to them.',
  move: (what: string) => `Move: ${what}`,
  moved: (what: string, horse: string, to: string) => `${what} · ${horse} → ${to}`,
  moveTo: 'Who takes it?',
  only: (stage: string) => `Only ${stage.toLowerCase()}`,
  allOf: (horse: string) => `All that is left of ${horse}`,
  toNobody: 'Nobody, for now',
  asking: 'Working out what would happen…',
  noAnswer: 'The hub does not answer. You can still do it; its effect will show once the hub is back.',
  noChange: 'Nobody’s times change by a minute or more.',
  before: 'Before',
  after: 'After',
  horseSpare: 'Horse ready',
  handsBehind: 'People behind',
  spareOf: (minutes: number) =>
    minutes < 0 ? `${span(minutes)} late` : minutes === 0 ? 'just in time' : `${span(minutes)} spare`,
  unknownSpare: 'cannot be said',
  gone: 'no longer needed',
  behindOf: (minutes: number) => (minutes === 0 ? 'in time' : `${span(minutes)} behind`),
  lateHorses: (before: number, after: number) => `Late horses: ${before} → ${after}`,
  doIt: 'Do it',
  dont: 'Leave it',
  done: 'Done.',
} as const;

export const STATUS: Record<TileStatus, string> = {
  notStarted: 'Not started',
  feetChecked: 'Feet checked',
  coatReady: 'Coat ready',
  tacked: 'Tacked',
  ridden: 'Back from its lesson',
  untacked: 'Untacked',
  cooled: 'Cooled',
  lookedOver: 'Looked over',
  putAway: 'Put away',
  pulled: 'Pulled',
  inLesson: 'In the lesson',
  free: 'No more lessons',
};

export const PRESENCE_WORD: Record<Presence['state'], string> = {
  here: 'here',
  expected: 'expected',
  left: 'has left',
  notComing: 'not coming',
};

export const HORSES = {
  pull: 'Pull from work',
  pulling: (name: string) => `Pull ${name} from work`,
  release: 'Release to work',
  releasing: (name: string) => `Release ${name} to work`,
  why: 'Why?',
  whys: ['Shoe lost or loose', 'Not sound', 'Hot or swollen leg', 'Sore back or girth', 'Not itself today'],
  until: 'Until when?',
  who: 'Who decides?',
  noStaff: 'Nobody of the staff is in the barn’s records yet. Add yourself under Add first.',
  word: 'What did the vet or farrier say?',
  wordNeeded: 'It is held for a vet or farrier: their word is needed.',
  caution: 'The board only keeps the decision. Signs that call for a vet or farrier: call them.',
  standsIn: 'Another horse for its places',
  noPlaces: 'It has no place in a lesson today.',
  choose: 'Which horse instead?',
  noHorse: 'No horse for now',
  tackOf: (name: string) => `on ${name}`,
  fits: 'Whether a horse fits a rider is for the instructor to say.',
} as const;

export const LESSONS = {
  none: 'No lesson today yet.',
  start: 'Starts',
  length: 'Length',
  minutes: (minutes: number) => `${minutes} min`,
  earlier: '5 min earlier',
  later: '5 min later',
  shorter: '5 min shorter',
  longer: '5 min longer',
  cancel: 'Cancel the lesson',
  cancelled: 'cancelled',
  places: 'Places',
  cancelPlace: 'Rider not coming',
  otherHorse: 'Other horse',
  look: 'See what it does',
  over: 'over',
  rider: (name: string | null) => name ?? 'rider not named',
  moved: (name: string, time: string) => `${name} starts at ${time}`,
  shortened: (name: string, minutes: number) => `${name} lasts ${minutes} min`,
  cancelledOne: (name: string) => `${name} is cancelled`,
  placeCancelled: (horse: string, name: string) => `${horse} is not needed in ${name}`,
  horseChanged: (horse: string, name: string) => `${horse} goes in ${name}`,
} as const;

export const RECENT = {
  none: 'Nothing to take back.',
  hint: 'The last things done, newest first. What somebody changed since cannot be undone.',
  takeBack: 'Undo',
  blocked: 'changed since',
  finished: (what: string, horse: string) => `${what}: ${horse}`,
  started: (stage: string, horse: string, by: string) => `${by} on ${stage.toLowerCase()} of ${horse}`,
  presence: (name: string, state: string) => `${name}: ${state}`,
  moved: (pieces: string) => `Work moved: ${pieces}`,
  pulled: (name: string) => `${name} pulled`,
  released: (name: string) => `${name} released`,
  lesson: (name: string) => `Lesson changed: ${name}`,
  lessonAdded: (name: string) => `Lesson added: ${name}`,
  finding: (name: string) => `Finding on ${name}`,
  ticked: (horse: string) => `Tack list ticked: ${horse}`,
  other: 'Something else',
} as const;

export const TABLETS = {
  hint: 'Open one of these on another tablet on the barn’s network, or point its camera at the code.',
  none: 'The hub did not say where it can be reached.',
} as const;

export const LANE = {
  /** `waits for Ben: Coat of Fern`, `waits for the lesson First`. */
  waits: ({ by, piece, lesson }: HeldUp): string => {
    if (lesson !== null) return `waits for the lesson ${lesson}`;
    const what = piece ? `${STAGE_WORK[piece.stage]} of ${piece.horseName}` : '';
    if (by === null) return what === '' ? 'held up' : `waits for ${what}`;
    return what === '' ? `waits for ${by}` : `waits for ${by}: ${what}`;
  },
  heldUp: (minutes: number) => `held up ${span(minutes)}`,
  behindSince: (time: string) => `behind since ${time}`,
  elsewhere: (name: string) => `${name} is expected to get to it first`,
} as const;

export const SUGGEST = {
  region: 'Suggestion',
  look: 'Look',
  notNow: 'Not now',
  provenBest: 'Nothing better exists: whoever does what, no horse would be ready sooner where it counts.',
  noBetterFound: 'No better move found. There may still be one.',
  others: (count: number) => (count === 1 ? '1 more to look at' : `${count} more to look at`),
  old: (age: string) => `worked out ${age} ago`,
  title: 'Move work?',
  givesOut: 'Nobody’s work',
  option: (moves: number) => (moves === 1 ? '1 move' : `${moves} moves`),
  moves: 'What would move',
  only: 'Only this',
  acceptAll: (moves: number) => (moves === 1 ? 'Do it' : `Do all ${moves}`),
  lessons: 'Lesson ready',
  people: 'Work done',
  proven: 'No other plan gets the latest horse ready sooner.',
  gone: 'Things have moved on: this no longer fits the board.',
  ready: (time: string, spareMinutes: number): string =>
    `${time}, ${span(spareMinutes)} ${spareMinutes < 0 ? 'late' : 'to spare'}`,
  done: (time: string, lateMinutes: number): string =>
    lateMinutes <= 0 ? time : `${time}, ${span(lateMinutes)} late`,
  nothing: 'nothing to do',
  unknown: 'cannot be said',
} as const;

export const WHAT_IF = {
  panel: 'What if',
  hint: 'See what would come of it first. Nothing is done until you say so.',
  leaves: 'Somebody leaves earlier or later',
  leavesAt: 'Leaves at',
  leavingAt: (time: string) => `leaves at ${time}`,
  earlier: '15 min earlier',
  later: '15 min later',
  until: (name: string, time: string) => `${name} leaves at ${time}`,
  who: 'Who?',
  moves: 'A lesson moves',
  which: 'Which lesson?',
  cancels: 'A rider cancels',
  whichPlace: 'Which place?',
  noOne: 'Nobody is here or expected.',
  noLesson: 'No lesson is still to come.',
} as const;
