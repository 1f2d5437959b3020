/**
 * What a repeated or late op of each kind means. A tablet may be out of touch for an hour and sends each tap again
 * until it is answered, so every kind must have an answer. `tests/properties` holds the code to this table.
 */
import type { OpKind } from './ops.ts';

type Meaning = {
  /** The same op id again. The hub answers as the first time; the board stays as it is. */
  readonly repeated: 'answered as before';
  /** The same thing said by another op, or this op after things moved on. */
  readonly late: string;
};

const SAME = 'answered as before';

export const LATE: { readonly [K in OpKind]: Meaning } = {
  stagesFinished: {
    repeated: SAME,
    late: 'the earliest tap counts; after a later stage it fills the gap; on a pulled or no longer needed horse it is kept as a note and answered with why; a stage after the lessons always lands, and counts when it was tapped after the horse was last tacked',
  },
  stageStarted: {
    repeated: SAME,
    late: 'after the stage is finished it changes nothing; the last start says where a person is',
  },
  stagesWrittenDown: {
    repeated: SAME,
    late: 'each stage lands at its written time, and the earliest counts; of a pulled or no longer needed horse it is kept as a note; declined when another day has begun: then it is a correction of the ledger',
  },
  itemsTicked: { repeated: SAME, late: 'the last tap for an item counts' },
  helpAsked: { repeated: SAME, late: 'always lands, in the order of asking' },
  helpAnswered: { repeated: SAME, late: 'the first answer of a person counts' },
  helpEnded: { repeated: SAME, late: 'a call that has ended stays so' },
  horsePulled: { repeated: SAME, late: 'always lands: one more hold on the horse' },
  horseIsolated: { repeated: SAME, late: 'the first setting stays until it is ended' },
  isolationEnded: { repeated: SAME, late: 'changes nothing when it has ended already' },
  farrierCame: { repeated: SAME, late: 'the latest date counts, in whatever order they come' },
  conditionScored: { repeated: SAME, late: 'the score seen last counts' },
  weatherRead: { repeated: SAME, late: 'lands in the order of reading; the newest reading is shown' },
  horseReleased: { repeated: SAME, late: 'declined when nothing holds the horse any more' },
  findingSeen: { repeated: SAME, late: 'always lands, in the order of seeing' },
  findingRead: { repeated: SAME, late: 'the first reading by a person counts' },
  standInsTaken: { repeated: SAME, late: 'declined when one of its horses was pulled meanwhile' },
  volunteerExpected: { repeated: SAME, late: 'the last hours given count' },
  volunteerArrived: { repeated: SAME, late: 'the last word about a person counts' },
  volunteerLeft: { repeated: SAME, late: 'the last word about a person counts' },
  volunteerNotComing: { repeated: SAME, late: 'the last word about a person counts' },
  workMoved: { repeated: SAME, late: 'the last move of a piece counts; finished pieces move without effect' },
  lessonAdded: {
    repeated: SAME,
    late: 'the same lesson again changes nothing; another under its id is declined',
  },
  lessonMoved: { repeated: SAME, late: 'the last time given counts' },
  lessonShortened: { repeated: SAME, late: 'the last length given counts' },
  lessonCancelled: { repeated: SAME, late: 'a cancelled lesson stays cancelled' },
  placeCancelled: { repeated: SAME, late: 'a cancelled place stays cancelled' },
  placeHorseChanged: {
    repeated: SAME,
    late: 'the last horse given counts; declined when it was pulled meanwhile',
  },
  lessonPlanned: { repeated: SAME, late: 'the last plan counts' },
  placesPlanned: {
    repeated: SAME,
    late: 'the last plan of a place counts; declined when a horse new to it was pulled meanwhile',
  },
  rolesChanged: {
    repeated: SAME,
    late: 'the last person given counts; declined when a leader would be moved with riders up, or somebody be in two lessons at once',
  },
  placesChecked: {
    repeated: SAME,
    late: 'lands on the horse and tack the place has now; of a horse that has left the place it says nothing',
  },
  ridersUp: { repeated: SAME, late: 'the later of up and down counts, by when they were tapped' },
  ridersDown: { repeated: SAME, late: 'the later of up and down counts, by when they were tapped' },
  lessonsMoved: { repeated: SAME, late: 'the last times given count; declined once riders are up' },
  lessonsCancelled: {
    repeated: SAME,
    late: 'a cancelled lesson stays cancelled; declined once riders are up',
  },
  recordSaved: { repeated: SAME, late: 'the last version saved counts' },
  recordsImported: {
    repeated: SAME,
    late: 'the last version saved counts; declined as a whole when something it takes away is still used today',
  },
  recordRetired: { repeated: SAME, late: 'declined when the record is gone or still used today' },
  ruleSet: { repeated: SAME, late: 'of each rule the last value saved counts; others stay as they are' },
  rulesChanged: { repeated: SAME, late: 'the last rules saved count' },
  barnNamed: { repeated: SAME, late: 'the last name given counts' },
  dayOpened: {
    repeated: SAME,
    late: 'declined unless it is a later date than the one open; the hub itself may go back to today from a later day that holds nothing',
  },
  ledgerCorrected: { repeated: SAME, late: 'always added; of several about the same thing the last counts' },
  alertsRaised: { repeated: SAME, late: 'changes nothing on the board; counted when the hub saw them' },
  planTaken: {
    repeated: SAME,
    late: 'lessons and people the day already has stay as they are; declined on another date',
  },
  undone: {
    repeated: SAME,
    late: 'declined when the op is already taken back, or something later changed the same thing',
  },
};
