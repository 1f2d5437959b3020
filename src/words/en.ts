/** All words on a screen, in English. One place, so that another language is one more file like it. */
import type { Caution, Hold } from '../barn/horse.ts';
import type { Clearance, Stage } from '../barn/stage.ts';
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
};

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

export const BOARD = {
  title: 'Aisle Board',
  loading: 'Looking for the hub…',
  noHub: 'The hub does not answer yet. This page keeps trying.',
  noHubHint: 'Check that the hub box is on and that this tablet is on the barn’s network.',
  awayNow: (at: string, age: string) => `The hub is away. This is how things stood at ${at}, ${age} ago.`,
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
  neededBy: (time: string) => `needed by ${time}`,
  feetBy: (time: string) => `by ${time}, to leave time for a stand-in`,
  onIt: (name: string) => `${name} is on it`,
  since: (time: string) => `since ${time}`,
  given: (name: string) => `for ${name}`,
  givenNobody: 'nobody yet',
  takeIt: 'I’m on it',
  done: (what: string, name: string | null) => (name === null ? what : `${what} · ${name}`),
  readyAt: (time: string) => `ready ${time}`,
  inLesson: (name: string, until: string) => `${name} until ${until}`,
  tackedAt: 'Ready for the ramp',
  free: 'No more lessons today',
  pulledAsk: 'Do not prepare. Ask the instructor.',
  pending: 'not yet at the hub',
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
  notMe: (name: string) => `Tapping as ${name}`,
  notMeHint: 'Tap to change',
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
  past: 'min past ramp time',
  hoursToRamp: 'hours to the ramp',
  hoursPast: 'hours past ramp time',
  rampAt: (time: string, until: string) => `Ramp ${time}, ${until}`,
  starts: (time: string) => `Starts ${time}`,
  then: 'Then',
  ready: (time: string) => `ready ${time}`,
  wasReady: (time: string) => `since ${time}`,
  unknown: 'cannot be said',
  none: 'No more lessons today',
  noneHere: 'No more lessons in this arena today',
  with: (name: string) => `with ${name}`,
  allReady: 'All ready',
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
