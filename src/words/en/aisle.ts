/** The aisle: tiles, what a tap leads to, a horse’s details. */
import type { Caution } from '../../barn/horse.ts';
import type { TileStage } from '../../day/views/aisle.ts';

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

export const STAGE_STATE: Record<TileStage['state'], string> = {
  done: 'done',
  underWay: 'under way',
  next: 'next',
  open: 'still to do',
};

export const EXTRAS = {
  yes: 'Time for mane and tail',
  ask: 'Time for mane and tail?',
  answer: (yes: boolean) => (yes ? 'yes' : 'no'),
} as const;

export const HOW = {
  how: (work: string) => `How? ${work}`,
  cannot: 'The steps cannot be fetched now. Ask somebody before you begin.',
} as const;

/** What each page of help is about, as on the button that opens it. */
export const HELP_TITLE = {
  fetch: 'Fetch and tie',
  feet: 'Feet',
  coat: 'Coat',
  extras: 'Extras',
  tack: 'Tack',
  girth: 'Girth check',
  untack: 'Untack',
  cool: 'Cool down',
  look: 'Look over',
  away: 'Put away',
} as const;
