/** What is printed, and what is typed back from it. */
import type { Caution } from '../../barn/horse.ts';
import { counted } from './common.ts';

export const PAPER_PAGE = 'Paper · Aisle Board';

export const PAPER = {
  title: 'On paper',
  intro: 'For when the power is out: pages for the aisle with boxes to tick, and one page a lesson.',
  print: 'Print',
  typeBack: 'Type back what was ticked',
  preview: 'Pages to print',
  size: 'Paper',
  aisle: 'Aisle',
  cautions: 'What to mind, horse by horse',
  printedAt: (time: string) => `Printed ${time}`,
  page: (n: number, of: number) => `Page ${n} of ${of}`,
  ramp: 'Ramp',
  horse: 'Horse',
  rider: 'Rider',
  leader: 'Leader',
  sideWalkers: 'Side-walkers',
  tack: 'Tack',
  findings: 'Seen',
  notes: 'Times, findings, changes by hand',
  by: (time: string) => `by ${time}`,
  standIn: (time: string) => `stand-in: ${time}`,
  doneAt: (time: string) => `done ${time}`,
  done: 'done',
  mounted: 'Up',
  off: 'Off work',
  mind: 'mind: see cautions',
  instructor: (name: string) => `Instructor ${name}`,
  stall: (name: string) => `Stall ${name}`,
  usual:
    'Feet first. Heat, lameness, a loose or lost shoe, swelling or a wound: stop, leave the horse where it is safe, tell the instructor. The centre’s own rules, the instructor, the vet and the farrier decide.',
  tick: 'Tick each box when done and write the time beside it. “Stand-in”: feet checked by then leave time for another horse.',
  nothing: 'There is no lesson today, so there is nothing to print.',
} as const;

export const PAPER_SIGNAL: Record<Caution['signal'], string> = {
  WARNING: 'WARNING',
  CAUTION: 'CAUTION',
  NOTICE: 'NOTICE',
};

export const TYPED = {
  how: 'Type each written time, as 13:05 or 1305 on a 24-hour clock, or x for a tick without a time. Enter goes down, Tab to the right.',
  who: 'Done by',
  nobody: 'Nobody named',
  cell: (stage: string, horse: string) => `${stage}, ${horse}`,
  whoFor: (horse: string) => `Done by, ${horse}`,
  unclear: 'Not a time',
  ahead: 'Not yet that late',
  known: (time: string) => `has ${time}`,
  enter: (count: number) => `Write down ${counted(count, 'stage', 'stages')}`,
  entered: (count: number) => `${counted(count, 'stage', 'stages')} written down.`,
  findings: 'What was seen on a horse is told on its tile, as always.',
} as const;
