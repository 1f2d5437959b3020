/** A record while it is filled in: plain data that may not make sense yet. */
import { TableRecord, type Table } from '#core/barn/barn.ts';
import { valueAt } from '#core/barn/atPath.ts';

export type Draft = Readonly<Record<string, unknown>>;

/** What is wrong with one field; the words stand in `src/words`. */
export type FaultCode = 'missing' | 'tooLong' | 'tooSmall' | 'tooLarge' | 'notSo' | 'endsBefore' | 'tooMany';
export type Fault = { readonly code: FaultCode; readonly limit: number | null };

/** The record when everything in the draft makes sense, else what is wrong, by path. */
export function checked(
  table: Table,
  draft: Draft,
):
  | { readonly saved: TableRecord; readonly faults: null }
  | { readonly saved: null; readonly faults: ReadonlyMap<string, Fault> } {
  const parsed = TableRecord.safeParse({ table, record: draft });
  if (parsed.success) return { saved: parsed.data, faults: null };
  const faults = new Map<string, Fault>();
  for (const issue of parsed.error.issues) {
    const path = issue.path.slice(1).join('.');
    if (!faults.has(path)) faults.set(path, faultOf(issue, valueAt(draft, path)));
  }
  return { saved: null, faults };
}

type Issue = { readonly code: string; readonly minimum?: unknown; readonly maximum?: unknown };

/** What a failed check means at a field that holds `value`. */
export function faultOf({ code, minimum, maximum }: Issue, value: unknown): Fault {
  if (value === undefined || value === null || value === '') return { code: 'missing', limit: null };
  const limit = Number(minimum ?? maximum ?? NaN);
  const known = Number.isFinite(limit) ? limit : null;
  if (code === 'too_small') {
    return typeof value === 'number' ? { code: 'tooSmall', limit: known } : { code: 'missing', limit: null };
  }
  if (code === 'too_big') {
    const what = typeof value === 'number' ? 'tooLarge' : Array.isArray(value) ? 'tooMany' : 'tooLong';
    return { code: what, limit: known };
  }
  return { code: code === 'custom' ? 'endsBefore' : 'notSo', limit: null };
}
