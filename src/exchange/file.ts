/** Any file that is brought in: a calendar or a table, by what it begins with. */
import type { Barn } from '../barn/barn.ts';
import { previewCalendar, type CalendarOf, type CalendarPreview } from './calendar/preview.ts';
import {
  NO_ANSWERS,
  previewTable,
  type Progress,
  type TableAnswers,
  type TablePreview,
} from './csv/preview.ts';

export type FilePreview = TablePreview | CalendarPreview;

/** `of`: what the events of a calendar are. */
export type FileAnswers = TableAnswers & { readonly of: CalendarOf | null };

export const NOTHING_SAID: FileAnswers = { ...NO_ANSWERS, of: null };

/** RFC 5545 §3.4: a calendar's first line. */
const CALENDAR_BEGINS = /^\s*BEGIN:VCALENDAR/i;

/** `name`: the file's. `today`: ISO 8601 on the barn's wall. A file called `.ics` is taken for a calendar whatever is in it. */
export function previewFile(
  { name, text }: { readonly name: string; readonly text: string },
  barn: Barn,
  today: string,
  answers: FileAnswers,
  newId: () => string,
  progress: Progress = () => {},
): FilePreview {
  const isCalendar = /\.(ics|ical|ifb)$/i.test(name) || CALENDAR_BEGINS.test(text);
  return isCalendar
    ? previewCalendar(text, barn, today, answers.of, newId, progress)
    : previewTable(text, barn, answers, newId, progress);
}
