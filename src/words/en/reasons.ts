/** Why an op changed nothing, or less than it said. */
import type { Reason } from '../../day/ops.ts';
import type { NameOf } from '../names.ts';
import { STAGE_WORK, CLEARANCE_WORD } from './common.ts';

/** Of a coordinator's tap that the hub heard of once the tablet was locked. */
export const LOCKED_MEANWHILE =
  'Only a coordinator may do that, and this tablet was locked when the hub heard of it: it was not done. Unlock it and tap again.';

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
    case 'unknownCall':
      return 'That call for help is not on the board any more.';
    case 'notClearedFor':
      return `${nameOf(reason.volunteer)} is not cleared for ${CLEARANCE_WORD[reason.clearance]}. Choose somebody else.`;
    case 'tooYoung':
      return `${nameOf(reason.volunteer)} is not of age, and this barn’s rules ask for an adult there.`;
    case 'roleTwice':
      return `${nameOf(reason.volunteer)} already has a part in ${nameOf(reason.lesson)} at that time. Free them there first.`;
    case 'roleFull':
      return 'Two people walk beside this horse already. Choose whom to replace.';
    case 'ridersUp':
      return `Riders are up in ${nameOf(reason.lesson)}: it stays as it is until they are down. Ask the instructor to halt, get them down, and tap “All down”.`;
    case 'samePerson':
      return `You tacked ${nameOf(reason.horse)} yourself: girth and stirrups are checked by somebody else.`;
    case 'onlyLeader':
      return `At this barn the one who leads ${nameOf(reason.horse)} checks girth and stirrups, or an instructor.`;
    case 'needsInstructor':
      return 'This check is the instructor’s own. Tap an instructor’s name.';
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
    case 'unreadable':
      return 'A tap kept on this tablet is from another version of the board and could not be taken. Look at the tiles and tap again.';
  }
}
