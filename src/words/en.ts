/** All words on a screen, in English. One place, so that another language is one more file like it. */
import type { Caution, Hold } from '../barn/horse.ts';
import type { Clearance, Stage } from '../barn/stage.ts';
import type { Presence } from '../day/board.ts';
import type { Reason } from '../day/ops.ts';
import type { TileStage, TileStatus } from '../day/views/aisle.ts';
import type { Readiness } from '../day/views/words.ts';
import type { Unplanned } from '../plan/model.ts';
import type { REFUSALS } from '../wire/messages.ts';

export const STAGE_WORK: Record<Stage, string> = { feet: 'Feet', coat: 'Coat', tack: 'Tack' };

/** What finishing a stage makes of the horse. */
export const STAGE_DONE: Record<Stage, string> = {
  feet: 'Feet checked',
  coat: 'Coat ready',
  tack: 'Tacked',
};

export const STATUS: Record<TileStatus, string> = {
  notStarted: 'Not started',
  feetChecked: 'Feet checked',
  coatReady: 'Coat ready',
  tacked: 'Tacked',
  pulled: 'Pulled',
  inLesson: 'In the lesson',
  free: 'No more lessons',
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

/** Names for ids in a reason. */
export type NameOf = (id: string) => string;

/** A reason as one plain sentence that says what to do. */
export function sayReason(reason: Reason, nameOf: NameOf): string {
  switch (reason.code) {
    case 'unknownPrep':
      return 'That horse is not on today’s list any more. Look at its tile again.';
    case 'unknownHorse':
      return 'The board does not know that horse.';
    case 'unknownPerson':
      return 'The board does not know that person.';
    case 'unknownLesson':
      return 'That lesson is not on today’s list.';
    case 'unknownPlace':
      return 'That place is not in the lesson any more.';
    case 'unknownPiece':
      return 'That piece of work is not on today’s list any more.';
    case 'unknownRecord':
      return 'That record is already gone.';
    case 'unknownFinding':
      return 'That finding is not on the board any more.';
    case 'horsePulled':
      return `${nameOf(reason.horse)} is pulled from today’s work. Your tap is kept as a note; ask the instructor.`;
    case 'notNeeded':
      return `${nameOf(reason.horse)} is not needed for a lesson any more. Your tap is kept as a note; ask the coordinator what is next.`;
    case 'notPulled':
      return `${nameOf(reason.horse)} is not pulled.`;
    case 'needsName':
      return 'Say who you are first: tap your name.';
    case 'notCleared':
      return `${nameOf(reason.volunteer)} is not cleared for ${STAGE_WORK[reason.stage].toLowerCase()} on ${nameOf(reason.horse)}. Ask the coordinator.`;
    case 'needsWord':
      return `${nameOf(reason.horse)} is held for a vet or farrier. Write down what they said before releasing.`;
    case 'lessonExists':
      return 'There is already another lesson like that.';
    case 'horseTwice':
      return `${nameOf(reason.horse)} is already in this lesson.`;
    case 'stillUsed':
      return 'That is still needed today.';
    case 'dayOver':
      return 'That day is not open on the board.';
    case 'nothingToUndo':
      return 'There is nothing to undo any more.';
    case 'changedSince':
      return 'Somebody changed this since, so it cannot be undone. Change it by hand.';
    case 'notYours':
      return 'Only the tablet it was tapped on, or the coordinator, can undo this.';
    case 'notAllowedHere':
      return 'This tablet may not do that. Ask the coordinator.';
  }
}

/* What the link to the hub says */

export const HUB_SAYS: Record<(typeof REFUSALS)[number], string> = {
  malformed: 'The hub could not read what this tablet sent. Reload this page.',
  helloFirst: 'The hub did not know this tablet. It is saying hello again.',
  otherVersion: 'The hub has a newer board. This page will reload when nobody is using it.',
  notAllowedHere: 'This tablet may not do that. Ask the coordinator.',
  notADemo: 'This barn is already your own.',
  tooMuch: 'This tablet sent more than the hub takes at once. It will send the rest again.',
  readOnly: 'The hub cannot write anything down just now. Taps are kept here and sent when it can.',
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
function counted(count: number, one: string, many: string): string {
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
  undo: 'Undo',
  cancel: 'Not now',
  back: 'Back',
  menu: 'Board menu',
  noDay: 'No day is open yet.',
  noDayHint: 'The coordinator adds the first lesson.',
  forecastAge: (age: string) => `Forecast is ${age} old`,
  noForecast: 'No forecast yet',
} as const;

/* Where a tablet hangs */

export const HANGING = {
  question: 'Where does this tablet hang?',
  hint: 'It remembers. You can change it later from the board menu.',
  aisle: 'Aisle',
  aisleHint: 'By the stalls: which horse, what next, done.',
  door: 'Arena door',
  doorHint: 'Read from inside the arena: will every horse be ready?',
  coordinator: 'Coordinator',
  coordinatorHint: 'In your hand: who is behind, who can help.',
  allStalls: 'All stalls',
  chosenStalls: (count: number) => counted(count, 'stall', 'stalls'),
  whichStalls: 'Which stalls?',
  anyArena: 'All arenas',
  whichArena: 'Which arena?',
  howFar: 'How far away do people stand?',
  metres: (metres: number) => `${metres} m`,
  nearer: 'Nearer',
  farther: 'Farther',
  fitsAt: 'The large words can be read from there.',
  tooFar: (metres: number) =>
    `This glass is made for up to ${metres} m. From farther away the words will be small.`,
  done: 'Hang it here',
} as const;

/* Aisle */

export const AISLE_PAGE = 'Aisle · Aisle Board';

export const AISLE = {
  stall: (name: string) => `Stall ${name}`,
  ramp: 'Ramp',
  by: (time: string) => `by ${time}`,
  due: (time: string) => `was due ${time}`,
  neededBy: (time: string) => `needed by ${time}`,
  feetBy: (time: string) => `by ${time}, to leave time for a stand-in`,
  onIt: (name: string) => `${name} is on it`,
  since: (time: string) => `since ${time}`,
  given: (name: string) => `for ${name}`,
  givenNobody: 'nobody yet',
  nobody: 'Nobody',
  tackedBy: (name: string) => `tacked by ${name}`,
  takeIt: 'I’m on it',
  done: (what: string, name: string | null) => (name === null ? what : `${what} · ${name}`),
  readyAt: (time: string) => `ready ${time}`,
  inLesson: (name: string, until: string) => `${name} until ${until}`,
  tackedAt: 'Ready for the ramp',
  sure: (from: string, until: string) => `Eight times in ten ready between ${from} and ${until}`,
  free: 'No more lessons today',
  pulledAsk: 'Do not prepare. Ask the instructor.',
  pending: 'kept here',
  details: (name: string) => `${name}: more`,
  more: 'More',
  who: (what: string, horse: string) => `${what}: ${horse}. Who did it?`,
  whoTakes: (horse: string) => `${horse}: who is on it?`,
  without: 'Without a name',
  notCleared: 'not cleared',
  itsTheirs: 'given to them',
  nobodyHere: 'Nobody is marked as here yet. Tap your name first.',
  imHere: 'I’m here',
  imHereWho: 'Who has arrived?',
  allHere: 'Everybody expected is here.',
  notMeHint: 'Not you? Tap.',
  byStall: 'By stall',
  byUrgency: 'Most urgent first',
  changePlace: 'Change what this tablet shows',
  page: (page: number, pages: number) => `${page} of ${pages}`,
  earlier: 'Back',
  later: 'More horses',
  noHorses: 'No horse stands in these stalls.',
  several: 'Finish several at once',
  severalHint: 'Tap what is done, then who did it.',
  finishChosen: 'Done',
  tack: 'Tack',
  notes: 'Notes',
  cautions: 'Mind',
  held: (kind: string) => `Pulled: ${kind}`,
  advice:
    'The board advises; a person decides. For anything with a horse’s health, ask the instructor, vet or farrier.',
} as const;

export const SIGNAL_WORD: Record<Caution['signal'], string> = {
  WARNING: 'Warning',
  CAUTION: 'Caution',
  NOTICE: 'Notice',
};

export const HOLD_WORD: Record<Hold['kind'], string> = {
  today: 'off for today',
  instructor: 'until an instructor releases it',
  farrier: 'until the farrier has seen it',
  vet: 'until the vet has seen it',
};

export const STAGE_STATE: Record<TileStage['state'], string> = {
  done: 'done',
  underWay: 'under way',
  next: 'next',
  open: 'still to do',
};

/* Arena door */

export const DOOR_PAGE = 'Arena door · Aisle Board';

export const DOOR = {
  toRamp: 'min to the ramp',
  hoursToRamp: 'hours to the ramp',
  rampAt: (time: string, until: string) => `Ramp ${time}, ${until}`,
  starts: (time: string) => `Starts ${time}`,
  next: 'Then',
  ready: (time: string) => `ready ${time}`,
  wasReady: (time: string) => `since ${time}`,
  unknown: 'cannot be said',
  none: 'No more lessons today',
  noneHere: 'No more lessons in this arena today',
  with: (name: string) => `with ${name}`,
  readyOf: (ready: number, all: number) => `${ready} of ${all} ready`,
} as const;

export const CLEARANCE_WORD: Record<Clearance, string> = {
  feet: 'feet',
  coat: 'coat',
  tack: 'tack',
  lead: 'leading',
  'side-walk': 'side-walking',
  experienced: 'experienced',
};

/* Coordinator */

export const COORDINATOR_PAGE = 'Coordinator · Aisle Board';

export const DESK = {
  hands: 'Hands',
  horses: 'Horses',
  lessons: 'Lessons',
  recent: 'Undo',
  tablets: 'Tablets',
  add: 'Add',
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
  hint: 'The last things done, newest first. What somebody changed since cannot be taken back.',
  takeBack: 'Take back',
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
  other: 'Something else',
} as const;

export const TABLETS = {
  hint: 'Open one of these on another tablet on the barn’s network, or point its camera at the code.',
  none: 'The hub did not say where it can be reached.',
} as const;

/* Beginning one’s own barn, and adding to it */

export const BEGIN_PAGE = 'Start a barn · Aisle Board';

export const BEGIN = {
  title: 'Start my own barn',
  hint: 'The demo goes away and an empty barn begins on this hub.',
  barnName: 'Name of the barn',
  zone: 'Time zone',
  start: 'Start this barn',
  starting: 'Starting…',
  failed: 'The hub did not answer. Try again when it is back.',
  badZone: 'This is not a time zone the hub knows, as America/Denver.',
  first: 'A first lesson on the board',
  more: 'Add to today',
  horse: 'Horse',
  horseName: 'Horse’s name',
  shoes: 'Shoes',
  stall: 'Stall',
  person: 'Person',
  personName: 'Volunteer’s name',
  cleared: 'Cleared for',
  lesson: 'Lesson today',
  lessonName: 'Name of the lesson',
  lessonTime: 'Starts at',
  rider: 'Rider’s call name (may stay empty)',
  staff: 'Who decides here? (may stay empty)',
  staffName: 'Your name, as coordinator',
  sameHorse: 'Horse already in the barn',
  newHorse: 'A new horse',
  samePerson: 'Person already in the barn',
  newPerson: 'A new person',
  noLesson: 'No lesson now',
  withLesson: 'With a lesson',
  put: 'Put it on the board',
  missing: 'Still missing: ',
  past: 'That time is already past the ramp time; the horse will show as late.',
  onBoard: 'It is on the board.',
  toHands: 'See it',
} as const;

export const MISSING_WORD = {
  horseName: 'the horse',
  stall: 'its stall',
  personName: 'the person',
  clearances: 'what they are cleared for',
  lessonName: 'the lesson’s name',
  time: 'when it starts',
} as const;

export const SHOES_WORD = { none: 'barefoot', front: 'shod in front', all: 'shod all round' } as const;
