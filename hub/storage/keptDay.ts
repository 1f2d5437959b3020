/**
 * A day that is over, in a file of its own: `days/2026-05-11.json`. No rider's name, need or weight and nobody's pace is in
 * it, so that old days can be kept for long; ids stand for people and horses.
 */
import { mkdir, readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import * as z from 'zod/mini';
import { DateText } from '#core/barn/fields.ts';
import { Rules } from '#core/barn/rules.ts';
import { Day } from '#core/day/board.ts';
import { Entry } from '#core/day/ops.ts';
import { lastingEntry } from '#core/day/redact.ts';
import { codeOf } from '../startError.ts';
import { writeWhole } from './files.ts';
import { seal, unseal } from './seal.ts';
import { DATA_VERSION } from './version.ts';

/** The version in which days were put by first; none since has changed their shape. */
const FIRST_VERSION = 2;

export const KeptDay = z.object({
  version: z.int().check(z.gte(FIRST_VERSION), z.lte(DATA_VERSION)),
  date: DateText,
  /** Number of the entry that opened it, or the first one still known, and of its last. */
  from: z.int(),
  to: z.int(),
  /** As it stood when the next day was opened. */
  day: Day,
  /** The barn's rules at its end; null: put by before they were kept with it. */
  rules: z._default(z.nullable(Rules), null),
  entries: z.array(Entry),
});
export type KeptDay = z.infer<typeof KeptDay>;

export const DAYS_FOLDER = 'days';

const NAME = /^\d{4}-\d{2}-\d{2}(-\d+)?\.json$/;

/** A day that another has followed: entries `from` … `to` made it. */
export type ClosedDay = {
  readonly day: Day & { date: string };
  readonly from: number;
  readonly to: number;
  /** The barn's rules at its end. */
  readonly rules: Rules;
};

/** The day to put by. `entries`: its own, as the hub has them. */
export function keptDay({ day, from, to, rules }: ClosedDay, entries: readonly Entry[]): KeptDay {
  return {
    version: DATA_VERSION,
    date: day.date,
    from,
    to,
    day,
    rules,
    entries: entries.map(lastingEntry),
  };
}

/** Writes the day into `folder`, whole or not at all; one that is there already stays as it is. */
export async function writeDay(folder: string, kept: KeptDay): Promise<void> {
  await mkdir(folder, { recursive: true, mode: 0o700 });
  const first = `${kept.date}.json`;
  const there = await readDay(join(folder, first));
  if (there === 'damaged' || (there && there.from !== kept.from)) {
    // The same date opened twice: a clock went ahead and back. Neither record is lost.
    const other = join(folder, `${kept.date}-${kept.from}.json`);
    if ((await readDay(other)) === null) await writeWhole(other, seal(kept));
  } else if (there === null) await writeWhole(join(folder, first), seal(kept));
}

/** The last `most` of them, oldest first. */
export async function readDays(
  folder: string,
  most: number,
): Promise<{ days: KeptDay[]; damaged: string[] }> {
  const names = await dayNames(folder);
  const days: KeptDay[] = [];
  const damaged: string[] = [];
  for (const name of most > 0 ? names.slice(-most) : []) {
    const day = await readDay(join(folder, name));
    if (day === 'damaged') damaged.push(name);
    else if (day) days.push(day);
  }
  return { days, damaged };
}

/** Names of the files in `folder`, oldest day first; the date stands at their beginning. */
export async function dayNames(folder: string): Promise<string[]> {
  return (await namesIn(folder)).filter((name) => NAME.test(name)).sort();
}

/** Of all files in `folder`; none when there is no such folder. */
export async function namesIn(folder: string): Promise<string[]> {
  try {
    return await readdir(folder);
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return [];
    throw error;
  }
}

/** Null: there is none. */
async function readDay(path: string): Promise<KeptDay | 'damaged' | null> {
  try {
    return dayFrom(await readFile(path, 'utf8'));
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return null;
    throw error;
  }
}

/** The day in a file's text. */
export function dayFrom(text: string): KeptDay | 'damaged' {
  try {
    const { data, isWhole } = unseal(text);
    const parsed = KeptDay.safeParse(data);
    return isWhole && parsed.success ? parsed.data : 'damaged';
  } catch (error) {
    if (error instanceof SyntaxError) return 'damaged';
    throw error;
  }
}
