/** Tables and calendars in and out. */
import type { Table } from '../../barn/barn.ts';
import type { CalendarOf } from '../../exchange/calendar/preview.ts';
import type { Kind } from '../../exchange/csv/columns.ts';
import type { Count } from '../../exchange/gathered.ts';
import { columnLetters, type At, type NamedTable, type Problem, type What } from '../../exchange/problem.ts';
import { counted } from './common.ts';

export const EXCHANGE_PAGE = 'Import · Aisle Board';

export const EXCHANGE = {
  title: 'Files in and out',
  back: 'Coordinator',
  choose: 'Choose a file',
  drop: 'or drop it here: a table (CSV) or a calendar (ICS).',
  hint: 'Nothing is taken until you have seen what it comes to. Nothing is ever deleted by a file.',
  reading: 'Reading…',
  sending: 'Writing it down…',
  another: 'Another file',
  take: 'Take it over',
  nothingNew: 'Everything in it is in the records already.',
  taken: 'Taken over.',
  takeBack: 'Take it back',
  takenBack: 'Taken back. The records are as they were before this file.',
  changedMeanwhile: 'The records have changed meanwhile. This is what the file comes to now.',
  columns: 'Columns understood',
  unused: 'Left out, as no heading here means this: ',
  problems: 'Nothing of it can be taken as it stands',
  asksKind: 'What is in this table?',
  asksOf: 'What is in this calendar?',
  downloads: 'As a table, for a spreadsheet',
  downloadsHint: 'Riders’ weights and needs are in it: keep such a file as you keep the records.',
  headings: 'Headings this board reads',
  neededHeading: 'must be there',
  old: 'These letters were read as Windows-1252. If names look wrong, save the file as UTF-8.',
  toSheet: 'Day sheet',
} as const;

/** Day before month, or the other way round: shown as the person would read the example. */
export const EXCHANGE_DATE_ORDER = {
  dmy: 'The day stands first',
  mdy: 'The month stands first',
} as const;

export const EXCHANGE_UNIT = { kg: 'Kilograms', lb: 'Pounds' } as const;

export function askDateOrder(column: string, example: string): string {
  return `“${example}” in the column “${column}” can be two dates. Which is it?`;
}

export function askWeightUnit(column: string, example: string): string {
  return `“${example}” in the column “${column}”: in which unit?`;
}

/** What was recognised: `Horses, 12 rows`. */
export function sayFileIs(of: string, rows: number): string {
  return `${of}, ${counted(rows, 'row', 'rows')}`;
}

export function sayCalendarIs(of: string, events: number): string {
  return `${of}, ${counted(events, 'event', 'events')}`;
}

export function sayCount({ fresh, changed, same }: Count): string {
  return `${fresh} new, ${changed} changed, ${same} the same`;
}

export function sayReading(done: number, of: number): string {
  return `Reading: ${done} of ${of}`;
}

export function sayTakeToday(lessons: number): string {
  return `Put ${counted(lessons, 'lesson', 'lessons')} of today on the board`;
}

export function sayMoreProblems(count: number): string {
  return `and ${count} more`;
}

export const EXCHANGE_FAILED = {
  notText: 'This is not a text file. Save it as CSV in the spreadsheet, then try again.',
  tooLarge: 'This file is larger than 16 MB. Split it into several files.',
  tooLong: 'This is more than the hub takes at once (8 MB). Split the file.',
  thread: 'This file could not be read. Choose it again.',
  noAnswer: 'The hub did not answer. Look into the records before you try again.',
  malformed: 'The hub did not take this file. Nothing of it was written down.',
  readOnly: 'The hub cannot write anything down just now. Nothing of it was taken. Try again later.',
} as const;

export const EXCHANGE_KIND: Record<Kind | CalendarOf, string> = {
  horses: 'Horses',
  volunteers: 'Volunteers',
  riders: 'Riders',
  lessons: 'Lessons',
  shifts: 'Shifts',
};

/** What a table of the records holds, in the plural. */
export const EXCHANGE_TABLE: Partial<Record<Table, string>> = {
  stalls: 'Stalls',
  horses: 'Horses',
  volunteers: 'Volunteers',
  staff: 'Instructors',
  riders: 'Riders',
  arenas: 'Arenas',
  pattern: 'Weekly lessons',
  planned: 'Single lessons',
  terms: 'Terms',
  exceptions: 'Exceptions',
  shifts: 'Shifts',
};

const ONE_OF: Record<NamedTable, string> = {
  stalls: 'stall',
  horses: 'horse',
  volunteers: 'volunteer',
  staff: 'instructor',
  riders: 'rider',
  arenas: 'arena',
};

function sayAt(at: At): string {
  switch (at.in) {
    case 'cell': {
      const letters = columnLetters(at.column);
      return at.title === ''
        ? `Row ${at.row}, column ${letters}`
        : `Row ${at.row}, column ${letters} (${at.title})`;
    }
    case 'row':
      return `Row ${at.row}`;
    case 'line':
      return at.name === '' ? `Line ${at.line}` : `Line ${at.line} (${at.name})`;
    case 'file':
      return 'This file';
  }
}

function sayWhat(what: What): string {
  switch (what.code) {
    case 'empty':
      return 'there is nothing in it.';
    case 'notText':
      return 'this is not a text file. Save it as CSV in the spreadsheet, then try again.';
    case 'tooLong':
      return `this has more than ${what.most} rows or lines. Split it into several files.`;
    case 'notRecognised':
      return 'these headings belong to no table this board knows. See the headings below.';
    case 'columnMissing':
      return `the column “${what.title}” is missing.`;
    case 'nothingInIt':
      return 'there is nothing to take over in it.';
    case 'quoteOpen':
      return 'a quotation mark is opened and never closed.';
    case 'quoteInside':
      return 'there is something after a closing quotation mark. A quotation mark inside a cell is written twice.';
    case 'tooManyCells':
      return `there are ${what.cells} cells, but only ${what.columns} headings.`;
    case 'columnTwice':
      return `a second column for “${what.title}”. Take one of them out.`;
    case 'needed':
      return 'this must not be empty.';
    case 'tooManySigns':
      return `this is longer than ${what.most} letters.`;
    case 'notNumber':
      return `“${what.text}” is not a number this column takes.`;
    case 'thousandsOrDecimal':
      return `“${what.text}” can be read in two ways. Write it without a mark for thousands.`;
    case 'outside':
      return `${what.text} is not between ${what.low} and ${what.high}.`;
    case 'notYesNo':
      return `“${what.text}” is neither yes nor no.`;
    case 'notDate':
      return `“${what.text}” is not a date. Best written as 2026-03-29.`;
    case 'notTime':
      return `“${what.text}” is not a time of day. Best written as 14:30.`;
    case 'notOneOf':
      return what.of.length === 0
        ? `“${what.text}” is not known here.`
        : `“${what.text}” is none of: ${what.of.join(', ')}.`;
    case 'notHours':
      return `“${what.text}” is not a weekday with two times, as in Mon 09:00-12:00.`;
    case 'badId':
      return `“${what.text}” cannot be an id: up to 32 letters, digits, - and _.`;
    case 'idElsewhere':
      return `the id “${what.text}” belongs to something else already.`;
    case 'unknownName':
      return `the board knows no ${ONE_OF[what.table]} “${what.text}”. Bring the ${ONE_OF[what.table]} in first, or write the name as it stands in the records.`;
    case 'nameTwice':
      return `there is more than one ${ONE_OF[what.table]} “${what.text}”. Use the column id to say which.`;
    case 'sameAsRow':
      return `this is the same one as in row ${what.row}.`;
    case 'otherThanRow':
      return `this differs from row ${what.row}, which is of the same lesson.`;
    case 'tooManyOf':
      return `there can be ${what.most} at most.`;
    case 'horseTwice':
      return `${what.text} is already in this lesson.`;
    case 'notInRecord':
      return `the records do not take this (${what.field}).`;
    case 'notCalendar':
      return 'this is not a calendar file: it does not begin with BEGIN:VCALENDAR.';
    case 'noColon':
      return `“${what.text}” is no line of a calendar: a name and a colon are missing.`;
    case 'notEnded':
      return `${what.name} begins here and never ends.`;
    case 'endWithoutBegin':
      return `${what.name} ends here, but that is not what began last.`;
    case 'propertyMissing':
      return `${what.name} is missing.`;
    case 'allDay':
      return 'this is for a whole day. A lesson or a shift needs a time of day.';
    case 'badValue':
      return `“${what.text}” cannot be read.`;
    case 'unknownZone':
      return `the time zone “${what.text}” is not known, and the file does not describe it.`;
    case 'tooManyTimes':
      return `this repeats more than ${what.most} times. Give it an end.`;
    case 'badLength':
      return `${what.minutes} minutes is not between ${what.low} and ${what.high}.`;
    case 'changeOfNothing':
      return 'this changes one date of something that is not in the file.';
    case 'unknownWho':
      return `“${what.text}” begins with no volunteer’s name. A shift is called as the volunteer is.`;
  }
}

/** One problem as a sentence with its place: `Row 4, column C (weight): “abc” is not a number this column takes.` */
export function sayProblem({ at, what }: Problem): string {
  return `${sayAt(at)}: ${sayWhat(what)}`;
}

/** What a person's calendar says. */
export const FEED_WORDS = {
  leading: (horse: string, lesson: string) => `Leading ${horse}: ${lesson}`,
  sideWalking: (horse: string, lesson: string) => `Walking beside ${horse}: ${lesson}`,
  shift: 'At the barn',
} as const;

/** Calendar addresses on the files screen. */
export const FEEDS = {
  title: 'Calendar addresses',
  about:
    'A calendar on a phone can follow the barn. Whoever has an address sees what is in it: give it to nobody else, and take it back when it is lost.',
  lessons: 'Lessons, no riders’ names',
  lessonsWithRiders: 'Lessons with riders’ names',
  person: 'One person’s shifts and roles',
  choose: 'Choose a person',
  make: 'Make an address',
  once: 'Shown once: the hub keeps no copy. Scan it, or write it down now.',
  revoke: 'Take back',
  gone: 'Somebody no longer in the records',
  failed: 'The hub did not do that. Try again.',
} as const;
