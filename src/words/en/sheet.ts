/** The day sheet: lessons, places, conflicts and proposals. */
import type { Conflict } from '../../day/conflicts.ts';
import type { AlongBlock } from '../../day/goAlong.ts';
import type { Missing } from '../../day/fromBook.ts';
import type { HorseBlock, LeftOpen, PersonReason } from '../../plan/propose/model.ts';
import type { NameOf } from '../names.ts';
import { counted } from './common.ts';
import { sayBlock, sayUnblock } from './plan.ts';

/** The sheet of a day to come. */
export const SHEET_PAGE = 'Day sheet · Aisle Board';

export const SHEET = {
  title: 'Day sheet',
  back: 'Coordinator',
  date: 'Date',
  isToday: 'This is today.',
  preview: 'What you change here holds for this date alone; every other week stays as it is.',
  past: 'This day is over. What happened on it stands under day’s end.',
  dayBefore: 'The day before',
  dayAfter: 'The day after',
  take: 'Take from the weekly plan',
  propose: 'Propose for open places',
  nothingOpen: 'Nothing is open that the board could fill.',
  accept: 'Take this proposal',
  leave: 'Leave it',
  addLesson: 'Add a lesson',
  addPlace: 'Add a place',
  noLessons: 'No lessons on this date.',
  people: 'Who comes when',
  horse: 'Horse',
  rider: 'Rider',
  leader: 'Leader',
  tack: 'Tack',
  sideWalker: 'Side-walker',
  name: 'Name of the lesson',
  time: 'Starts at',
  fine: 'Nothing speaks against this day.',
  undo: 'Undo',
  here: 'Is here',
  comes: (from: string, until: string) => `Comes ${from}–${until}`,
  change: 'Change the lesson',
  minutes: 'Length (min)',
  save: 'Save',
  wanted: 'People wanted',
  wantsLeader: 'A leader',
  wantsWalkers: 'Side-walkers',
  takeOut: 'Take this place out',
  notOn: 'Not on this date',
  ownForm: 'Changed for this date',
  everyWeek: 'As every week again',
  allWeeks: 'Change every week',
  closed: (why: string) =>
    why === '' ? 'The barn is closed on this date.' : `The barn is closed on this date: ${why}`,
  lasts: (minutes: number) => `${minutes} min`,
  wants: (leader: boolean, sideWalkers: number) => {
    const wanted = [
      ...(leader ? ['leader'] : []),
      ...(sideWalkers > 0 ? [counted(sideWalkers, 'side-walker', 'side-walkers')] : []),
    ];
    return wanted.length === 0 ? 'nobody' : wanted.join(', ');
  },
} as const;

/** Before a change is made. */
export const CLASHES = {
  title: 'What then does not go together',
  none: 'Nothing new clashes.',
} as const;

const SHEET_ROLE = { leader: 'lead', sideWalker: 'walk beside' } as const;

/** A conflict as a sentence, and what to do. */
export function sayConflict(conflict: Conflict, nameOf: NameOf): string {
  switch (conflict.code) {
    case 'no-horse':
      return 'No horse. Choose one, or ask for a proposal.';
    case 'no-tack-chosen':
      return `${nameOf(conflict.horse)}: no tack list chosen. Choose one.`;
    case 'pair': {
      const { block, horse } = conflict;
      const todo = block.unblock === null ? 'Choose another horse.' : sayUnblock(block.unblock, nameOf);
      return `${nameOf(horse)}: ${sayBlock(block, nameOf)} ${todo}`;
    }
    case 'workload':
      return `${nameOf(conflict.horse)}: ${sayBlock({ code: 'workload', over: conflict.over, unblock: null }, nameOf)} Give one of its places to another horse.`;
    case 'horse-twice':
      return `${nameOf(conflict.horse)} is in ${nameOf(conflict.other)} at the same time. Choose another horse for one of them.`;
    case 'too-little-between':
      return `${nameOf(conflict.horse)} has ${conflict.minutes} min after ${nameOf(conflict.other)} and needs ${conflict.needed}. Start later, or choose another horse.`;
    case 'rider-twice':
      return `This rider is in ${nameOf(conflict.other)} at the same time. Take one of them out.`;
    case 'arena-twice':
      return `${nameOf(conflict.arena)} is also used by ${nameOf(conflict.other)} at this time. Look whether both fit.`;
    case 'instructor-twice':
      return `${nameOf(conflict.person)} teaches ${nameOf(conflict.other)} at the same time. Choose another instructor.`;
    case 'no-instructor':
      return 'No instructor yet. Choose one.';
    case 'along':
      return `${nameOf(conflict.person)} ${sayAlong(conflict.block, nameOf)} Choose somebody else to ${SHEET_ROLE[conflict.role]}.`;
    case 'open-role':
      return conflict.free === 0
        ? `Nobody who is cleared to ${SHEET_ROLE[conflict.role]} is there and free. Ask somebody to come, or move the lesson.`
        : `Somebody is still wanted to ${SHEET_ROLE[conflict.role]}; ${conflict.free} could. Choose one.`;
  }
}

function sayAlong(block: AlongBlock, nameOf: NameOf): string {
  switch (block.code) {
    case 'not-cleared':
      return 'is not cleared for it.';
    case 'too-young':
      return 'is under age, and the barn’s rules want an adult.';
    case 'not-expected':
      return 'is not expected on this day.';
    case 'away':
      return 'is not here.';
    case 'other-hours':
      return 'is not here for the whole lesson.';
    case 'busy':
      return `is also needed in ${nameOf(block.lesson)}.`;
  }
}

export function sayPersonReason(reason: PersonReason): string {
  switch (reason.code) {
    case 'others-free':
      return reason.others === 0 ? 'nobody else could' : `${reason.others} more could`;
    case 'with-this-rider-before':
      return 'with this rider before today';
    case 'experienced':
      return 'experienced, as this horse asks';
    case 'in-lessons':
      return reason.lessons === 0 ? 'in no other lesson yet' : `in ${reason.lessons} lessons already`;
  }
}

/** What the book names and the barn keeps no more. */
export function sayMissing({ what }: Missing, lesson: string): string {
  const NAMED: Record<Missing['what'], string> = {
    arena: 'arena',
    instructor: 'instructor',
    rider: 'rider',
    horse: 'horse',
    tack: 'tack list',
    leader: 'leader',
    sideWalker: 'side-walker',
  };
  return `${lesson}: its ${NAMED[what]} is not in the records any more. Choose another in Records.`;
}

/** Why a place or a role stays open, with the first few who were looked at. */
export function sayLeftOpen(open: LeftOpen, lesson: string, nameOf: NameOf): string {
  if (open.what === 'horse') {
    const why = open.horses
      .slice(0, MOST_NAMED)
      .flatMap(({ horse, blocks: [block] }) =>
        block ? `${nameOf(horse)}: ${sayHorseBlock(block, nameOf)}` : [],
      );
    return [`${lesson}: no horse could be found for a place.`, ...why, more(open.horses.length)].join(' ');
  }
  const why = open.people
    .slice(0, MOST_NAMED)
    .flatMap(({ person, blocks: [block] }) => (block ? `${nameOf(person)} ${sayAlong(block, nameOf)}` : []));
  return [
    `${lesson}: nobody could be found to ${SHEET_ROLE[open.what]}.`,
    ...why,
    more(open.people.length),
  ].join(' ');
}

const MOST_NAMED = 4;

function more(count: number): string {
  return count > MOST_NAMED ? `${count - MOST_NAMED} more could not either.` : '';
}

function sayHorseBlock(block: HorseBlock, nameOf: NameOf): string {
  return block.code === 'too-little-between'
    ? `only ${block.minutes} min between this and ${nameOf(block.lesson)}, and it needs ${block.needed}.`
    : sayBlock(block, nameOf);
}
