/** What the screens say about the plan: suggestions, what-ifs, chances, extras, and whose delay it is. */
import type { ChanceWord } from '../day/views/chance.ts';
import type { HeldUp } from '../day/views/coordinator.ts';
import { span, STAGE_WORK } from './en.ts';

/** With when the last horse is predicted ready. */
export const CHANCE_WORD: Record<ChanceWord, string> = {
  sure: 'Sure',
  likely: 'Likely',
  doubtful: 'Doubtful',
};

export const DOOR_PLAN = {
  chance: (word: ChanceWord, ready: string | null) =>
    ready === null ? CHANCE_WORD[word] : `${CHANCE_WORD[word]}: all ready ${ready}`,
  past: 'min late for the ramp',
  hoursPast: 'hours late for the ramp',
  toStart: 'min to the start',
  hoursToStart: 'hours to the start',
} as const;

export const EXTRAS = {
  yes: 'Time for mane and tail',
  ask: 'Time for mane and tail?',
  answer: (yes: boolean) => (yes ? 'yes' : 'no'),
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
