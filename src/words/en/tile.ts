/** On a horse’s tile beside its stages: calls, checks, rest, and what the barn’s rules make of what was seen. No diagnosis, no dose. */
import type { Advice } from '../../care/advise.ts';
import type { Handling, Whom } from '../../care/findingRules.ts';
import { span } from './common.ts';

export const CALL = {
  hand: 'Come and help',
  unsure: 'I’m not sure',
  calls: (name: string) => `calls ${name}`,
  handAt: (horse: string, stall: string) => `A hand at ${horse}, stall ${stall}`,
  unsureAt: (horse: string, stall: string, to: string | null) =>
    to === null
      ? `Somebody is not sure at ${horse}, stall ${stall}`
      : `${to}, please: not sure at ${horse}, stall ${stall}`,
  by: (name: string) => `asked by ${name}`,
  free: (name: string, metres: number | null) =>
    metres === null ? `${name} is free` : `${name} is free, ${Math.round(metres)} m away`,
  freeHere: (metres: number | null) => (metres === null ? 'free now' : `free, ${Math.round(metres)} m away`),
  nobodyFree: 'Nobody cleared for it is free just now',
  coming: (names: string) => `${names} is coming`,
  whoComes: 'Who comes?',
  whoEnds: 'Done with? Who says so?',
  asked: (horse: string, kind: 'hand' | 'unsure', to: string | null) =>
    kind === 'unsure' && to !== null
      ? `${horse}: ${to} is called. Stay with the horse and wait.`
      : `${horse}: a hand is asked for, on all boards.`,
  who: (horse: string) => `${horse}: who asks?`,
} as const;

export const CHECK = {
  girth: 'Girth and stirrups',
  girthHint: 'a second person',
  girthBy: (name: string) => `Girth checked: ${name}`,
  who: (horse: string) => `${horse}: who checked girth and stirrups? Not who tacked.`,
  instructor: 'Instructor’s check',
  notChecked: 'not checked',
  notByInstructor: 'not yet checked by the instructor',
  checkAll: (open: number) => `Checked by the instructor: ${open} to do`,
  allChecked: 'Checked by the instructor',
  whichHorse: 'Which horse is checked?',
  all: 'All of them',
  whoChecks: 'Who checked?',
} as const;

export const REST = {
  until: (time: string, water: boolean) => `Rest until ${time}${water ? ', offer water' : ''}`,
  short: (minutes: number) => `${span(minutes)} less rest than the barn asks for`,
} as const;

const HANDLING: Record<Handling, string> = {
  'leave-it-in': 'Leave it in.',
  'keep-still': 'Keep the horse still.',
  'soft-ground': 'On soft ground only.',
  'no-tack-over-it': 'No tack over it.',
  'own-kit-only': 'Its own brushes only.',
  'wash-hands': 'Wash your hands.',
  'stand-back': 'Stand back.',
  'compare-feet': 'Feel the other feet too.',
};

const OFF: Record<Whom, string> = {
  vet: 'Off work until the vet has seen it',
  farrier: 'Off work until the farrier has seen it',
  instructor: 'Off today’s work until an instructor releases it',
};

/** The advice in one line, worst first. */
export function sayAdvice({ level, whom }: Pick<Advice, 'level' | 'whom'>): string {
  switch (level) {
    case 'clear':
      return 'Nothing to tell';
    case 'carry-on':
      return 'Carry on, and tell the instructor';
    case 'wait':
      return 'Wait for the instructor';
    case 'off-today':
      return OFF[whom];
    case 'call-now':
      return whom === 'farrier' ? 'Call the farrier now' : 'Call the vet now';
  }
}

/** What to do with the horse meanwhile; empty: nothing special. */
export function sayHandling({ handling }: Pick<Advice, 'handling'>): string {
  return handling.map((one) => HANDLING[one]).join(' ');
}

/** Whom to tell. */
export function sayWhom({ level, whom }: Pick<Advice, 'level' | 'whom'>): string {
  if (level === 'clear') return '';
  if (whom === 'instructor') return 'Tell the instructor.';
  return `Tell the instructor, who tells the ${whom}.`;
}

/** On a horse that has just come in for another. */
export const STAND_IN_MARK = 'stand-in';

/** Under what the barn’s rules make of a finding. */
export const DECIDERS = 'Instructor, vet and farrier decide.';

/** On a horse that is kept apart. */
export const ISOLATED_SHORT = 'Own kit only. Do it last. Wash your hands.';
export const ISOLATED_TILE = 'Own kit · last · wash hands';

/** After something was told of a horse. */
export const toldOf = (horse: string): string => `Told: ${horse}`;

/** Of somebody who could put the horse away. */
export const couldDo = (name: string): string => `${name} has time`;
