/**
 * What stands in one cell, in the ways people write it. Nothing is guessed: what can mean two things is a problem or a
 * question. Pure functions of the cell's text.
 */
import type { What } from '../problem.ts';
import { said } from '../problem.ts';

export type Cell<T> = { readonly value: T } | { readonly what: What };

const bad = (what: What): { readonly what: What } => ({ what });

/** A mark that a spreadsheet must not take the cell for a formula; this program writes it, so it takes it off again. */
const FORMULA_MARK = /^'(?='*[=+\-@\t\r])/;

export function textOf(cell: string): string {
  return cell.replace(FORMULA_MARK, '').trim();
}

/** `512.5`, `512,5`, `1 024`. One mark before exactly three digits may be either: then a problem. */
export function numberOf(text: string, low: number, high: number): Cell<number> {
  const digits = text.replaceAll(/[\s\u00a0\u202f']/g, '');
  if (!/^[+-]?\d+([.,]\d+)*$/.test(digits)) return bad({ code: 'notNumber', text: said(text) });
  const marks = digits.replaceAll(/[^.,]/g, '');
  // Both marks: the last is the decimal one, the other parts thousands.
  const isMixed = marks.includes('.') && marks.includes(',');
  if (isMixed && !/^[+-]?\d{1,3}(([.]\d{3})+,\d+|(,\d{3})+[.]\d+)$/.test(digits)) {
    return bad({ code: 'notNumber', text: said(text) });
  }
  if (!isMixed && marks.length > 1) return bad({ code: 'notNumber', text: said(text) });
  if (!isMixed && /^[+-]?[1-9]\d{0,2}[.,]\d{3}$/.test(digits)) {
    return bad({ code: 'thousandsOrDecimal', text: said(text) });
  }
  const last = Math.max(digits.lastIndexOf('.'), digits.lastIndexOf(','));
  const value =
    last < 0
      ? Number(digits)
      : Number(`${digits.slice(0, last).replaceAll(/[.,]/g, '')}.${digits.slice(last + 1)}`);
  return value >= low && value <= high ? { value } : bad({ code: 'outside', text: said(text), low, high });
}

const YES = new Set(['yes', 'y', 'true', '1', 'x', 'si', 'sí', 'ja', 'oui']);
const NO = new Set(['no', 'n', 'false', '0', '-', 'nein', 'non']);

export function yesNoOf(text: string): Cell<boolean> {
  const word = text.toLowerCase();
  if (YES.has(word)) return { value: true };
  return NO.has(word) ? { value: false } : bad({ code: 'notYesNo', text: said(text) });
}

/** The entries of a list in one cell: parted by semicolons or line breaks. */
export function listOf(text: string): string[] {
  return text
    .split(/[;\n]/)
    .map((one) => one.trim())
    .filter((one) => one !== '');
}

export type DateOrder = 'dmy' | 'mdy';

const ISO = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$/;
const SLASHED = /^(\d{1,2})[-/. ]+(\d{1,2})[-/. ]+(\d{4})$/;
const NAMED_DMY = /^(\d{1,2})[-. ]+(?:de )?([a-zé]{3,})[-., ]+(?:de )?(\d{4})$/i;
const NAMED_MDY = /^([a-z]{3,})[. ]+(\d{1,2})[, ]+(\d{4})$/i;

/** Month names by their first three letters, in English and Spanish (and so in German, but for what is spelt otherwise). */
const MONTHS: Readonly<Record<string, number>> = {
  jan: 1,
  ene: 1,
  feb: 2,
  mar: 3,
  apr: 4,
  abr: 4,
  may: 5,
  mai: 5,
  jun: 6,
  jul: 7,
  aug: 8,
  ago: 8,
  sep: 9,
  set: 9,
  oct: 10,
  okt: 10,
  nov: 11,
  dec: 12,
  dic: 12,
  dez: 12,
};

const DAYS_IN = [31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const;

/** What a whole column of dates says about the order of day and month. */
export function orderOf(cells: readonly string[]): DateOrder | 'either' | 'none' {
  let isDmy = false;
  let isMdy = false;
  let isAny = false;
  for (const text of cells) {
    const found = SLASHED.exec(textOf(text));
    if (!found) continue;
    const [first, second] = [Number(found[1]), Number(found[2])];
    if (first > 12 && second <= 12) isDmy = true;
    else if (second > 12 && first <= 12) isMdy = true;
    else if (first !== second) isAny = true;
  }
  if (isDmy === isMdy) return isDmy || isAny ? 'either' : 'none';
  return isDmy ? 'dmy' : 'mdy';
}

/** ISO 8601 (`2026-03-29`) of a cell. `order` says which comes first in `03/04/2026`. */
export function dateOf(text: string, order: DateOrder): Cell<string> {
  const iso = ISO.exec(text);
  if (iso) return date(text, iso[1], iso[2], iso[3]);
  const slashed = SLASHED.exec(text);
  if (slashed) {
    const [, first, second, year] = slashed;
    return order === 'dmy' ? date(text, year, second, first) : date(text, year, first, second);
  }
  const dmy = NAMED_DMY.exec(text);
  if (dmy) return date(text, dmy[3], monthOf(dmy[2]), dmy[1]);
  const mdy = NAMED_MDY.exec(text);
  if (mdy) return date(text, mdy[3], monthOf(mdy[1]), mdy[2]);
  return bad({ code: 'notDate', text: said(text) });
}

function monthOf(name = ''): string {
  return String(MONTHS[name.slice(0, 3).toLowerCase()] ?? 0);
}

function date(text: string, year = '', month = '', day = ''): Cell<string> {
  const [y, m, d] = [Number(year), Number(month), Number(day)];
  const isLeap = (y % 4 === 0 && y % 100 !== 0) || y % 400 === 0;
  const days = m === 2 && !isLeap ? 28 : (DAYS_IN[m - 1] ?? 0);
  // Years the records take.
  if (y < 2000 || y > 2199 || d < 1 || d > days) return bad({ code: 'notDate', text: said(text) });
  return { value: `${year}-${String(m).padStart(2, '0')}-${String(d).padStart(2, '0')}` };
}

const CLOCK = /^(\d{1,2})(?:[:.h](\d{2}))?(?::\d{2})?\s*([ap])?\.?\s*(m)?\.?\s*(?:h|uhr)?$/i;

/** `HH:mm` of `14:30`, `14.30`, `14h30`, `2:30 pm`, `9 am`. A bare `9` is no time. */
export function timeOf(text: string): Cell<string> {
  const found = CLOCK.exec(text);
  const [, hours = '', minutes, half] = found ?? [];
  const hour = Number(hours);
  const minute = Number(minutes ?? '0');
  const isTwelve = half !== undefined;
  const isBare = minutes === undefined && !isTwelve;
  if (!found || isBare || minute > 59 || (isTwelve ? hour < 1 || hour > 12 : hour > 23)) {
    return bad({ code: 'notTime', text: said(text) });
  }
  const full = isTwelve ? (hour % 12) + (half.toLowerCase() === 'p' ? 12 : 0) : hour;
  return { value: `${String(full).padStart(2, '0')}:${String(minute).padStart(2, '0')}` };
}
