/** Beginning one’s own barn, and adding to it. */

export const BEGIN_PAGE = 'Start a barn · Aisle Board';

export const BEGIN = {
  title: 'Start my own barn',
  hint: 'The demo goes away and an empty barn begins on this hub.',
  barnName: 'Name of the barn',
  zone: 'Time zone',
  start: 'Start this barn',
  starting: 'Starting…',
  failed: 'The hub did not answer. Try again when it is back.',
  badZone: 'This is not a time zone the hub knows, as America/Denver.',
  first: 'A first lesson on the board',
  more: 'Add to today',
  horse: 'Horse',
  horseName: 'Horse’s name',
  shoes: 'Shoes',
  stall: 'Stall',
  person: 'Person',
  personName: 'Volunteer’s name',
  cleared: 'Cleared for',
  lesson: 'Lesson today',
  lessonName: 'Name of the lesson',
  lessonTime: 'Starts at',
  rider: 'Rider’s call name (may stay empty)',
  staff: 'Who decides here? (may stay empty)',
  staffName: 'Your name, as coordinator',
  sameHorse: 'Horse already in the barn',
  newHorse: 'A new horse',
  samePerson: 'Person already in the barn',
  newPerson: 'A new person',
  noLesson: 'No lesson now',
  withLesson: 'With a lesson',
  put: 'Put it on the board',
  missing: 'Still missing: ',
  past: 'That time is already past the ramp time; the horse will show as late.',
  onBoard: 'It is on the board.',
  toHands: 'See it',
} as const;

export const MISSING_WORD = {
  horseName: 'the horse',
  stall: 'its stall',
  personName: 'the person',
  clearances: 'what they are cleared for',
  lessonName: 'the lesson’s name',
  time: 'when it starts',
} as const;

export const SHOES_WORD = { none: 'barefoot', front: 'shod in front', all: 'shod all round' } as const;
