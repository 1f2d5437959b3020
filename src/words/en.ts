/** All words on a screen, in English. One place, so that another language is one more file like it. */
import type { Stage } from '../barn/stage.ts';
import type { Reason } from '../day/ops.ts';
import type { TileStatus } from '../day/views/aisle.ts';
import type { Readiness } from '../day/views/words.ts';
import type { Unplanned } from '../plan/model.ts';

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
