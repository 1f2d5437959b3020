/**
 * Content lines of a calendar file (RFC 5545 §3.1): unfolded, each with the line of the file it begins on, and the
 * components they stand in. Here is where a problem gets its line number.
 */
import { said, type Problem } from '../problem.ts';

export type ContentLine = {
  readonly line: number;
  /** Upper case. */
  readonly name: string;
  /** The whole line, unfolded. */
  readonly text: string;
};

export type Component = {
  readonly name: string;
  readonly line: number;
  readonly properties: readonly ContentLine[];
  readonly inside: readonly Component[];
};

type Open = Component & { readonly properties: ContentLine[]; readonly inside: Component[] };

const LINE = /^([A-Za-z0-9-]+)(?:[;:])/;

/** Longer files are something else: some 20,000 lessons. */
const MOST_LINES = 400_000;

/** The calendars in `text`, or everything that is wrong with its shape. */
export function readComponents(text: string): readonly Component[] | readonly Problem[] {
  if (text.trim() === '') return [{ at: { in: 'file' }, what: { code: 'empty' } }];
  const physical = text.split(/\r\n|\n|\r/);
  if (physical.length > MOST_LINES) {
    return [{ at: { in: 'file' }, what: { code: 'tooLong', most: MOST_LINES } }];
  }
  if (!/^BEGIN:VCALENDAR\s*$/i.test(physical.find((line) => line.trim() !== '') ?? '')) {
    return [{ at: { in: 'line', line: 1, name: 'BEGIN' }, what: { code: 'notCalendar' } }];
  }
  const top: Component[] = [];
  const open: Open[] = [];
  const problems: Problem[] = [];
  for (const one of unfolded(physical)) {
    const name = LINE.exec(one.text)?.[1]?.toUpperCase();
    if (name === undefined) {
      const at = { in: 'line', line: one.line, name: '' } as const;
      problems.push({ at, what: { code: 'noColon', text: said(one.text) } });
    } else if (name === 'BEGIN') {
      open.push({ name: valueOf(one.text).toUpperCase(), line: one.line, properties: [], inside: [] });
    } else if (name === 'END') {
      const wanted = valueOf(one.text).toUpperCase();
      const closed = open.pop();
      if (closed?.name !== wanted) {
        const at = { in: 'line', line: one.line, name: 'END' } as const;
        // Everything after it would be counted to the wrong component.
        return [...problems, { at, what: { code: 'endWithoutBegin', name: wanted } }];
      }
      (open.at(-1)?.inside ?? top).push(closed);
    } else open.at(-1)?.properties.push({ ...one, name });
  }
  const left = open.at(-1);
  if (left) {
    const at = { in: 'line', line: left.line, name: 'BEGIN' } as const;
    problems.push({ at, what: { code: 'notEnded', name: left.name } });
  }
  return problems.length > 0 ? problems : top;
}

export function isComponents(read: readonly Component[] | readonly Problem[]): read is readonly Component[] {
  const [first] = read;
  return first !== undefined && 'inside' in first;
}

/** A line that begins with a space or a tab goes on with the one before it. */
function* unfolded(physical: readonly string[]): Generator<{ line: number; text: string }> {
  let current = null as { line: number; text: string } | null;
  for (const [i, text] of physical.entries()) {
    if (current && (text.startsWith(' ') || text.startsWith('\t'))) {
      current = { ...current, text: current.text + text.slice(1) };
      continue;
    }
    if (current) yield current;
    current = text.trim() === '' ? null : { line: i + 1, text };
  }
  if (current) yield current;
}

/** What stands after the first colon that is not inside quotes. */
export function valueOf(text: string): string {
  let isQuoted = false;
  for (let i = 0; i < text.length; i += 1) {
    if (text[i] === '"') isQuoted = !isQuoted;
    else if (text[i] === ':' && !isQuoted) return text.slice(i + 1).trim();
  }
  return '';
}

/** A parameter's value, without its quotes; null when the line has none. */
export function parameterOf(text: string, name: string): string | null {
  const head = text.slice(0, text.length - valueOf(text).length);
  const found = new RegExp(`;${name}=("[^"]*"|[^;:"]*)`, 'i').exec(head)?.[1];
  return found === undefined ? null : found.replaceAll('"', '');
}
