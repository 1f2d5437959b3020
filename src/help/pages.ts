/**
 * First-day help: for each piece of work its steps in order. What is said stands in `src/words`, what is drawn in the kiosk; here
 * stands which steps there are, which of them are the short form, and which carry a signal word.
 *
 * 5 to 9 steps a page: Gawande's "Checklist for Checklists" (Project Check). The order of grooming, soft tools for face and legs, and
 * saddle before bridle: 4-H Horse Manual, ch. 8, and general manuals; approach at the shoulder: American Youth Horse Council leaflet,
 * and Loch & Ballenger, University of Missouri; quick-release tying at wither height: Virginia CTE equine course. The centre's own
 * rules come before all of them.
 */
import type { Caution } from '../barn/horse.ts';
import type { WorkStage } from '../barn/stage.ts';

/** Drawings the kiosk has. Several steps may share one. */
export const DRAWINGS = [
  'box',
  'approach',
  'halter',
  'tie',
  'passBehind',
  'legHeld',
  'sole',
  'curryCircles',
  'strokes',
  'softBrush',
  'pad',
  'saddle',
  'girth',
  'bridle',
  'ears',
  'secondPerson',
  'untack',
  'walk',
  'legs',
  'stall',
] as const;
export type Drawing = (typeof DRAWINGS)[number];

export type HelpStep = {
  readonly id: string;
  readonly drawing: Drawing;
  /** After ANSI Z535: WARNING could kill or seriously injure, CAUTION could injure; null: how the work is done. */
  readonly signal: Exclude<Caution['signal'], 'NOTICE'> | null;
  /** Also in the short form, for somebody who has little time and has done it before. */
  readonly isShort: boolean;
};

const step = (id: string, drawing: Drawing, signal: HelpStep['signal'] = null): HelpStep => ({
  id,
  drawing,
  signal,
  isShort: false,
});
/** A step that the short form has, too. */
const key = (id: string, drawing: Drawing, signal: HelpStep['signal'] = null): HelpStep => ({
  ...step(id, drawing, signal),
  isShort: true,
});

export const HELP_PAGES = {
  fetch: [
    step('box', 'box'),
    key('look', 'ears', 'WARNING'),
    key('shoulder', 'approach', 'WARNING'),
    step('door', 'stall', 'CAUTION'),
    step('halter', 'halter'),
    key('rope', 'halter', 'WARNING'),
    step('lead', 'walk'),
    key('tie', 'tie', 'CAUTION'),
  ],
  feet: [
    step('kit', 'box'),
    key('stand', 'legHeld', 'WARNING'),
    step('down', 'legHeld'),
    key('hold', 'legHeld', 'CAUTION'),
    key('pick', 'sole'),
    step('see', 'sole'),
    key('shoe', 'sole'),
    step('round', 'passBehind', 'WARNING'),
    key('stop', 'sole'),
  ],
  coat: [
    key('curry', 'curryCircles'),
    step('places', 'curryCircles'),
    step('gentle', 'legs', 'CAUTION'),
    key('stiff', 'strokes'),
    key('soft', 'softBrush'),
    step('side', 'passBehind', 'WARNING'),
    key('feel', 'curryCircles'),
    step('ears', 'ears', 'CAUTION'),
  ],
  extras: [
    step('time', 'softBrush'),
    step('tail', 'passBehind', 'WARNING'),
    step('mane', 'softBrush'),
    step('shoulders', 'strokes'),
    step('stop', 'ears'),
  ],
  tack: [
    key('list', 'box'),
    step('smooth', 'curryCircles'),
    key('pad', 'pad'),
    key('saddle', 'saddle'),
    step('clear', 'saddle', 'CAUTION'),
    key('girth', 'girth', 'WARNING'),
    step('bridle', 'bridle'),
    key('check', 'secondPerson'),
    step('stay', 'tie', 'CAUTION'),
  ],
  girth: [
    key('stand', 'approach', 'CAUTION'),
    key('look', 'pad'),
    key('slow', 'girth', 'WARNING'),
    key('stirrups', 'saddle'),
    key('say', 'secondPerson'),
  ],
  untack: [
    key('halter', 'halter', 'CAUTION'),
    step('stirrups', 'saddle'),
    key('girth', 'girth'),
    key('lift', 'untack'),
    step('under', 'pad'),
    step('bridle', 'bridle'),
    key('back', 'box'),
  ],
  cool: [
    key('walk', 'walk'),
    step('breath', 'ears'),
    key('warm', 'curryCircles'),
    step('water', 'box'),
    key('call', 'ears', 'WARNING'),
  ],
  look: [
    key('feet', 'sole'),
    key('legs', 'legs'),
    key('back', 'pad'),
    step('mouth', 'bridle'),
    step('ears', 'ears', 'WARNING'),
    key('tell', 'secondPerson'),
  ],
  away: [
    step('gate', 'stall', 'CAUTION'),
    key('turn', 'halter', 'WARNING'),
    step('halter', 'halter'),
    key('out', 'stall', 'WARNING'),
    step('water', 'stall'),
    key('things', 'box'),
  ],
} as const satisfies Record<string, readonly HelpStep[]>;

export type HelpSubject = keyof typeof HELP_PAGES;
export type HelpStepOf<S extends HelpSubject> = (typeof HELP_PAGES)[S][number]['id'];

export const HELP_SUBJECTS = Object.keys(HELP_PAGES) as readonly HelpSubject[];

/** Below this spare the short form is shown first; the long one is one tap away. In minutes; common practice, no source. */
export const SHORT_FORM_SPARE_MINUTES = 5;

/** The steps to show: all of them, or the short form when time is short. `spareMinutes` null: nobody knows. */
export function stepsFor(subject: HelpSubject, spareMinutes: number | null): readonly HelpStep[] {
  const steps: readonly HelpStep[] = HELP_PAGES[subject];
  const isShort = spareMinutes !== null && spareMinutes < SHORT_FORM_SPARE_MINUTES;
  return isShort ? steps.filter((one) => one.isShort) : steps;
}

/** What is to be done with a horse now. `extras`: the board has time for mane and tail; null: not known. */
export type ToDo = {
  readonly next: WorkStage | null;
  /** A second person is to look at girth and stirrups. */
  readonly asksCheck: boolean;
  readonly extras: boolean | null;
};

/** The pages for it, in the order they are needed. Extras only where the board says that there is time. */
export function subjectsFor({ next, asksCheck, extras }: ToDo): readonly HelpSubject[] {
  if (next === null) return asksCheck ? ['girth'] : [];
  if (next === 'feet') return ['fetch', 'feet'];
  return next === 'coat' && extras === true ? ['coat', 'extras'] : [next];
}
