/** Who and what the barn’s records hold. */
export const RECORDS_PAGE = 'Records · Aisle Board';

export const RECORDS = {
  title: 'Records',
  search: 'Search',
  add: 'Add',
  save: 'Save',
  saving: 'Saving…',
  saved: 'Saved.',
  discard: 'Discard',
  retire: 'Retire',
  retireSure: 'Retire it now',
  more: 'Show more',
  none: 'None',
  choose: 'Choose',
  addOne: 'Add one',
  remove: 'Remove',
  yes: 'Yes',
  no: 'No',
  back: 'Coordinator',
  nothing: 'Nothing here yet.',
  stillUsed: 'Still needed by: ',
  inBook: 'These come without it from now on: ',
  goneWith: 'These shifts and exceptions mean nothing without it: ',
  choosePhoto: 'Choose a picture',
  photoFailed: 'That picture could not be kept. Try another, or try again when the hub is back.',
  rules: 'Barn rules',
  reset: 'Default',
  source: 'Source of the default: ',
  onePerLine: 'One on each line',
} as const;

export const RECORD_TABLE = {
  horses: 'Horses',
  volunteers: 'Volunteers',
  riders: 'Riders',
  staff: 'Staff',
  arenas: 'Arenas',
  stalls: 'Stalls',
  helmets: 'Helmets',
  pattern: 'Weekly lessons',
  planned: 'Single lessons',
  terms: 'Terms',
  exceptions: 'Exceptions',
  shifts: 'Who comes when',
} as const;

export const RECORD_FIELD = {
  name: 'Name',
  stall: 'Stall',
  tackLists: 'Tack lists',
  weight: 'Weight of the horse',
  how: 'Weighed by',
  pony: 'Pony',
  condition: 'Condition score',
  loadLimit: 'Own limit, rider and tack',
  experiencedFor: 'Asks for an experienced person',
  farrierOn: 'Last shoeing or trim',
  kit: 'Own grooming kit',
  cautions: 'Cautions',
  notes: 'Notes',
  photo: 'Picture',
  clearances: 'Cleared for',
  minor: 'Under age',
  pace: 'Time taken against the barn’s mean',
  callName: 'Call name',
  fullName: 'Full name',
  riderWeight: 'Weight as ridden',
  balanced: 'Sits in balance',
  approvedHorses: 'Approved horses',
  notWithHorses: 'Not with',
  ownHelmet: 'Own helmet, bought on',
  knocked: 'Was hit in a fall',
  needs: 'Needs',
  role: 'Role',
  metres: 'From the first stall',
  boughtOn: 'Bought on',
  date: 'Date',
  firstDate: 'First date',
  lastDate: 'Last date',
  time: 'Starts at',
  minutes: 'Length',
  arena: 'Arena',
  instructor: 'Instructor',
  places: 'Places',
  rider: 'Rider',
  horse: 'Horse',
  tack: 'Tack',
  leader: 'Leader',
  sideWalkers: 'Side-walkers',
  what: 'What',
  lesson: 'Lesson',
  insteadOf: 'Date it would be on',
  toDate: 'New date',
  toTime: 'New time',
  why: 'Why',
  volunteer: 'Volunteer',
  comes: 'Comes',
  weekday: 'Weekday',
  term: 'Term',
  from: 'From',
  until: 'Until',
  items: 'What belongs to it',
  tackKg: 'Weight of the tack',
  signal: 'How serious',
  caution: 'What to mind',
} as const;

export const RECORD_FOOT = { LF: 'Left fore', LH: 'Left hind', RF: 'Right fore', RH: 'Right hind' } as const;
export const RECORD_SHOD = { barefoot: 'barefoot', shod: 'shod' } as const;
export const RECORD_HOW = { scale: 'scale', tape: 'tape' } as const;
export const RECORD_ROLE = { instructor: 'Instructor', coordinator: 'Coordinator' } as const;
export const RECORD_SIGNAL = { WARNING: 'Warning', CAUTION: 'Caution', NOTICE: 'Notice' } as const;
export const RECORD_WHAT = { closed: 'Closed', cancelled: 'Cancelled', moved: 'Moved' } as const;
export const RECORD_EVERY = { week: 'Every week', once: 'Once' } as const;
export const RECORD_WEEKDAY: readonly string[] = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];

export type RecordFault =
  'missing' | 'tooLong' | 'tooSmall' | 'tooLarge' | 'notSo' | 'endsBefore' | 'tooMany';

export function sayRecordFault(code: RecordFault, limit: number | null): string {
  switch (code) {
    case 'missing':
      return 'Please fill this in.';
    case 'tooLong':
      return `Too long: at most ${limit} signs.`;
    case 'tooSmall':
      return `Too small: at least ${limit}.`;
    case 'tooLarge':
      return `Too large: at most ${limit}.`;
    case 'tooMany':
      return `Too many: at most ${limit}.`;
    case 'endsBefore':
      return 'It must end after it begins.';
    case 'notSo':
      return 'This cannot be right. Look at it again.';
  }
}

export const RECORDS_ERASE = {
  held: 'All that is held',
  heldWhat:
    'The record, what is planned, and what was done. It is personal: keep it where only the person and the coordinator can get at it.',
  asTable: 'As a table (CSV)',
  asJson: 'As it is stored (JSON)',
  erase: 'Erase',
  sure: 'Erase for good',
  what: 'The record goes now. What was done stays counted, under a number that leads to nobody.',
  stays:
    'What stays: backups you have taken, and folders set aside when a backup was put back (barn-until-…). Delete those by hand.',
} as const;

export const RECORDS_ERASED = {
  now: 'Erased, from every file of the hub too.',
  nextStart: 'The record is gone. The hub could not clear all its files; it tries again when it next starts.',
} as const;

export const RECORDS_NOT_ERASED = {
  otherName: 'This is not the name in the record.',
  onToday: 'This person is on today’s board. Take them out of today, or erase them tomorrow.',
  lastCoordinator: 'The barn’s only coordinator stays. Make somebody else a coordinator first.',
  unclearId:
    'The id of this record is a word of the board’s own, so it cannot be cleared safely. Nothing was changed.',
  readOnly: 'The hub cannot write anything down just now. Nothing was changed.',
  noAnswer: 'The hub did not answer. Look whether the record is still there.',
} as const;

export function sayTypeName(name: string): string {
  return `To be sure, type the name: ${name}`;
}
