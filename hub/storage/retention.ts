/** Days put by long ago keep their counts and lose their people. */
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { withoutPeople } from '#core/day/forget.ts';
import { dateAfter } from '#core/time/dates.ts';
import { writeWhole } from './files.ts';
import { dayFrom, dayNames } from './keptDay.ts';
import { seal } from './seal.ts';

/**
 * Takes the people out of days in `daysFolder` that lie more than `keepDays` before `today`; each file at once, so that a
 * crash leaves the rest to the next time. Answers with the names of the files that changed.
 */
export async function forgetOldDays(daysFolder: string, today: string, keepDays: number): Promise<string[]> {
  const first = dateAfter(today, -keepDays);
  const changed: string[] = [];
  for (const name of await dayNames(daysFolder)) {
    if (name.slice(0, first.length) >= first) continue;
    const path = join(daysFolder, name);
    const text = await readFile(path, 'utf8');
    const day = dayFrom(text);
    if (day === 'damaged') continue;
    const left = seal(withoutPeople(day));
    if (left === text || dayFrom(left) === 'damaged') continue;
    await writeWhole(path, left);
    changed.push(name);
  }
  return changed;
}
