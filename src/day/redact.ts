/**
 * What each place may know. A tablet gets the board as its role may see it, then entries as its role may see them, and
 * evolves its own copy; so for every board and entry
 * `evolve(redactBoard(b, role), redactEntry(e, role))` equals `redactBoard(evolve(b, e), role)`.
 */
import type { Table, TableRecord } from '../barn/barn.ts';
import { EMPTY_BOOK, isBookTable } from '../barn/tableNames.ts';
import type { Board } from './board.ts';
import type { Entry, Fact, Reason } from './ops.ts';
import type { Role } from './places.ts';

/** The board without what this role may not know: riders, the book, what a horse may carry and how fast people work stay with the coordinator. */
export function redactBoard(board: Board, role: Role): Board {
  if (role === 'coordinator') return board;
  const { barn } = board;
  return {
    ...board,
    barn: {
      ...barn,
      riders: {},
      book: EMPTY_BOOK,
      helmets: {},
      volunteers: shownAll(barn.volunteers),
      horses: shownAll(barn.horses),
    },
  };
}

/** The entry without what this role may not know. It keeps its sequence number, even when nothing is left of it. */
export function redactEntry(entry: Entry, role: Role): Entry {
  if (role === 'coordinator') return entry;
  const facts = entry.facts.flatMap((fact) => shownFact(fact) ?? []);
  const why = entry.why && shownReason(entry.why);
  const same = why === entry.why && facts.every((fact, i) => fact === entry.facts[i]);
  return same && facts.length === entry.facts.length ? entry : { ...entry, facts, why };
}

/** Nobody's age is told on a wall. */
function shownReason(why: Reason): Reason {
  if (why.code !== 'tooYoung') return why;
  return { code: 'notClearedFor', volunteer: why.volunteer, clearance: 'lead' };
}

/**
 * The entry as it is put by for long: no more of riders and paces than an aisle tablet is shown, but with the ledger's
 * corrections.
 */
export function lastingEntry(entry: Entry): Entry {
  const facts = entry.facts.flatMap((fact) =>
    fact.kind === 'ledgerCorrected' ? fact : (shownFact(fact) ?? []),
  );
  return { ...entry, facts };
}

function shownAll<T extends { private?: unknown }>(records: Readonly<Record<string, T>>) {
  return Object.fromEntries(Object.entries(records).map(([id, record]) => [id, shown(record)]));
}

/** A record without what only the coordinator may see. */
function shown<T extends { private?: unknown }>(record: T): Omit<T, 'private'> {
  const { private: _kept, ...rest } = record;
  return rest;
}

function shownFact(fact: Fact): Fact | null {
  if (fact.kind === 'recordSaved') {
    const saved = shownRecord(fact.saved);
    return saved === fact.saved ? fact : saved && { ...fact, saved };
  }
  // Who came and went, and why it was written down wrongly, is between them and the coordinator.
  if (fact.kind === 'ledgerCorrected') return null;
  if (fact.kind === 'recordsImported') {
    const put = fact.put.flatMap((one) => shownRecord(one) ?? []);
    const gone = fact.gone.filter(({ table }) => !isPrivate(table));
    // How the file was called is between the coordinator and the hub.
    return put.length + gone.length === 0 ? null : { ...fact, name: '', put, gone };
  }
  if (fact.kind === 'recordRetired') return isPrivate(fact.table) ? null : fact;
  return fact.kind === 'conditionScored' ? null : fact;
}

/** Tables of which nothing leaves the coordinator's screens: riders, their helmets, and what is planned with them. */
function isPrivate(table: Table): boolean {
  return table === 'riders' || table === 'helmets' || isBookTable(table);
}

function shownRecord(saved: TableRecord): TableRecord | null {
  if (isPrivate(saved.table)) return null;
  if (saved.table === 'volunteers') return { table: 'volunteers', record: shown(saved.record) };
  return saved.table === 'horses' ? { table: 'horses', record: shown(saved.record) } : saved;
}
