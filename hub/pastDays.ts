/** Days put by, looked at one file at a time: what the ledger makes of each is kept as long as its file stays as it is. */
import { readFile, stat } from 'node:fs/promises';
import { join } from 'node:path';
import type { Barn } from '#core/barn/barn.ts';
import type { Account, CorrectionRecord } from '#core/ledger/account.ts';
import { accountOfDay } from '#core/ledger/day.ts';
import { lessonsWorked } from '#core/ledger/lessons.ts';
import { DAYS_BEFORE, daysEarlier, workedBefore, type DateRange } from '#core/ledger/range.ts';
import { correctionsIn, type DayRecord } from '#core/ledger/record.ts';
import { dayFrom, dayNames, type KeptDay } from './storage/keptDay.ts';

/** Where days put by are: files, or in memory. */
export type DaysAt = { readonly folder: string } | { readonly days: readonly KeptDay[] };

type Known = {
  /** Another one: the file was written anew. */
  readonly tag: string;
  readonly date: string;
  /** `ifHas`: null for a file without this word in it, unread. */
  readonly load: (ifHas?: string) => Promise<KeptDay | 'damaged' | null>;
  corrections: readonly CorrectionRecord[] | null;
  /** The horses that worked on it. */
  worked: readonly string[] | null;
  /** `of`: all that it depends on besides the file. */
  account: { readonly of: string; readonly account: Account } | null;
};

/** Only a file with this word in it has to be read through for corrections. */
const CORRECTED = '"ledgerCorrected"';

export type Found = {
  /** By date. */
  readonly accounts: readonly Account[];
  /** Names of files that cannot be read. */
  readonly damaged: readonly string[];
  /** Which horses worked on these dates and the days before them. */
  readonly workedOn: ReadonlyMap<string, ReadonlySet<string>>;
};

export class PastDays {
  #known = new Map<string, Known>();

  /** The days of `range`. `newer`: corrections from a day that is still open. */
  async find(at: DaysAt, range: DateRange, barn: Barn, newer: readonly CorrectionRecord[]): Promise<Found> {
    await this.#look(at);
    const damaged = new Set<string>();
    const corrections = [...(await this.#correctionsSince(range.from, damaged)), ...newer];
    const workedOn = new Map<string, Set<string>>();
    const accounts: Account[] = [];
    const first = daysEarlier(range.from, DAYS_BEFORE);
    for (const [name, known] of this.#known) {
      const { date } = known;
      if (date < first || date > range.until) continue;
      const isBefore = date < range.from;
      const ours = corrections.filter((one) => one.date === date);
      const before = workedBefore(date, workedOn);
      const account = isBefore ? null : keptAccount(known, barn, ours, before);
      if (account) accounts.push(account);
      else if (!isBefore || known.worked === null) {
        const kept = await known.load();
        if (kept === null || kept === 'damaged') damaged.add(name);
        else if (isBefore) known.worked = horsesIn(recordOf(kept));
        else accounts.push(newAccount(known, recordOf(kept), barn, ours, before));
      }
      workedOn.set(date, new Set([...(workedOn.get(date) ?? []), ...(known.worked ?? [])]));
    }
    return { accounts, damaged: [...damaged], workedOn };
  }

  /** What there is now, oldest first. */
  async #look(at: DaysAt): Promise<void> {
    const found = 'folder' in at ? await filesIn(at.folder) : inMemory(at.days);
    this.#known = new Map(
      found.map(([name, file]) => {
        const before = this.#known.get(name);
        return [name, before?.tag === file.tag ? before : file];
      }),
    );
  }

  /** A correction is written down on the day it is about or later. */
  async #correctionsSince(from: string, damaged: Set<string>): Promise<CorrectionRecord[]> {
    const all: CorrectionRecord[] = [];
    for (const [name, known] of this.#known) {
      if (known.date < from) continue;
      if (known.corrections === null) {
        const day = await known.load(CORRECTED);
        if (day === 'damaged') damaged.add(name);
        known.corrections = day === null || day === 'damaged' ? [] : correctionsIn(day.entries);
      }
      all.push(...known.corrections);
    }
    return all;
  }
}

function keptAccount(
  known: Known,
  barn: Barn,
  ours: readonly CorrectionRecord[],
  before: (horse: string) => boolean[],
): Account | null {
  if (known.worked === null || known.account === null) return null;
  return known.account.of === dependsOn(known.worked, barn, ours, before) ? known.account.account : null;
}

function newAccount(
  known: Known,
  record: DayRecord,
  barn: Barn,
  ours: readonly CorrectionRecord[],
  before: (horse: string) => boolean[],
): Account {
  const account = accountOfDay(record, { barn, corrections: ours, workedBefore: before });
  known.worked = horsesIn(record);
  known.account = { of: dependsOn(known.worked, barn, ours, before), account };
  return account;
}

function dependsOn(
  worked: readonly string[],
  { rules }: Barn,
  ours: readonly CorrectionRecord[],
  before: (horse: string) => boolean[],
): string {
  return JSON.stringify([ours, rules, worked.map((horse) => before(horse))]);
}

function horsesIn(record: DayRecord): string[] {
  return [...lessonsWorked(record).keys()];
}

function recordOf({ date, day, entries, rules }: KeptDay): DayRecord {
  return { date, day, entries, rules, now: null };
}

async function filesIn(folder: string): Promise<[string, Known][]> {
  return Promise.all(
    (await dayNames(folder)).map(async (name): Promise<[string, Known]> => {
      const path = join(folder, name);
      const { mtimeMs, size } = await stat(path);
      const load: Known['load'] = async (ifHas = '') => {
        const text = await readFile(path, 'utf8');
        return text.includes(ifHas) ? dayFrom(text) : null;
      };
      return [name, fresh(`${mtimeMs}/${size}`, name.slice(0, 10), load)];
    }),
  );
}

function inMemory(days: readonly KeptDay[]): [string, Known][] {
  return days
    .toSorted((a, b) => (a.date < b.date ? -1 : 1))
    .map((day) => {
      const name = `${day.date}/${day.from}`;
      return [name, fresh(name, day.date, () => Promise.resolve(day))];
    });
}

function fresh(tag: string, date: string, load: Known['load']): Known {
  return { tag, date, load, corrections: null, worked: null, account: null };
}
