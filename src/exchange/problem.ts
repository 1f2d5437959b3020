/**
 * What can be wrong with a file that is brought in, and where. Each problem is a typed value; its sentence stands in
 * `src/words`. A file with one problem is not taken at all.
 */

/** A cell as a spreadsheet names it: row from 1 with the headings in row 1, column from 1 (A). */
export type CellAt = {
  readonly in: 'cell';
  readonly row: number;
  readonly column: number;
  readonly title: string;
};
export type RowAt = { readonly in: 'row'; readonly row: number };
/** A line of a calendar file, from 1, and the property or component that stands there. */
export type LineAt = { readonly in: 'line'; readonly line: number; readonly name: string };
export type FileAt = { readonly in: 'file' };
export type At = CellAt | RowAt | LineAt | FileAt;

/** What is wrong with the text of one cell or property. `text` is what stands there, cut short. */
export type What =
  /* The file */
  | { readonly code: 'empty' }
  | { readonly code: 'notText' }
  | { readonly code: 'tooLong'; readonly most: number }
  | { readonly code: 'notRecognised' }
  | { readonly code: 'columnMissing'; readonly title: string }
  | { readonly code: 'nothingInIt' }
  /* Its shape */
  | { readonly code: 'quoteOpen' }
  | { readonly code: 'quoteInside' }
  | { readonly code: 'tooManyCells'; readonly cells: number; readonly columns: number }
  | { readonly code: 'columnTwice'; readonly title: string }
  /* A cell */
  | { readonly code: 'needed' }
  | { readonly code: 'tooManySigns'; readonly most: number }
  | { readonly code: 'notNumber'; readonly text: string }
  | { readonly code: 'thousandsOrDecimal'; readonly text: string }
  | { readonly code: 'outside'; readonly text: string; readonly low: number; readonly high: number }
  | { readonly code: 'notYesNo'; readonly text: string }
  | { readonly code: 'notDate'; readonly text: string }
  | { readonly code: 'notTime'; readonly text: string }
  | { readonly code: 'notOneOf'; readonly text: string; readonly of: readonly string[] }
  | { readonly code: 'notHours'; readonly text: string }
  | { readonly code: 'badId'; readonly text: string }
  | { readonly code: 'idElsewhere'; readonly text: string }
  | { readonly code: 'unknownName'; readonly text: string; readonly table: NamedTable }
  | { readonly code: 'nameTwice'; readonly text: string; readonly table: NamedTable }
  | { readonly code: 'sameAsRow'; readonly row: number }
  | { readonly code: 'otherThanRow'; readonly row: number }
  | { readonly code: 'tooManyOf'; readonly most: number }
  | { readonly code: 'horseTwice'; readonly text: string }
  | { readonly code: 'notInRecord'; readonly field: string }
  /* A calendar */
  | { readonly code: 'notCalendar' }
  | { readonly code: 'noColon'; readonly text: string }
  | { readonly code: 'notEnded'; readonly name: string }
  | { readonly code: 'endWithoutBegin'; readonly name: string }
  | { readonly code: 'propertyMissing'; readonly name: string }
  | { readonly code: 'allDay' }
  | { readonly code: 'badValue'; readonly text: string }
  | { readonly code: 'unknownZone'; readonly text: string }
  | { readonly code: 'tooManyTimes'; readonly most: number }
  | { readonly code: 'badLength'; readonly minutes: number; readonly low: number; readonly high: number }
  | { readonly code: 'changeOfNothing' }
  | { readonly code: 'unknownWho'; readonly text: string };

export type NamedTable = 'stalls' | 'horses' | 'volunteers' | 'staff' | 'riders' | 'arenas';

export type Problem = { readonly at: At; readonly what: What };

/** Longest piece of a file that is said back in a problem, in signs. */
const MOST_SIGNS_SAID = 40;

/** What stands in the file, as it is said back: cut short, on one line. */
export function said(text: string): string {
  const line = text.replaceAll(/\s+/g, ' ').trim();
  return line.length <= MOST_SIGNS_SAID ? line : `${line.slice(0, MOST_SIGNS_SAID - 1)}…`;
}

/** The letters a spreadsheet has over a column: 1 is A, 27 is AA. */
export function columnLetters(column: number): string {
  let letters = '';
  for (let rest = column; rest > 0; rest = Math.floor((rest - 1) / 26)) {
    letters = String.fromCodePoint(65 + ((rest - 1) % 26)) + letters;
  }
  return letters;
}
