/**
 * Who was let in, turned away or struck off: one line of JSON each, only ever added to; of somebody
 * who was erased the id goes. What is done on the board stands in
 * the journal; no PIN, code or token stands in either.
 */
import { open, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { withoutAll, type Forgotten } from '#core/day/forget.ts';
import { codeOf } from '../startError.ts';
import { writeWhole } from '../storage/files.ts';

export const AUDIT_NAME = 'gate.log';

const OWNER_ONLY = 0o600;

export type Seen = {
  readonly what:
    | 'paired'
    | 'codeWrong'
    | 'placed'
    | 'struckOff'
    | 'unlocked'
    | 'pinWrong'
    | 'pinSet'
    | 'pinTaken'
    | 'pinsReset'
    | 'backupTaken';
  readonly tablet?: string;
  /** Who did it, by their id among the staff. */
  readonly by?: string;
  /** Whom it was about. */
  readonly whom?: string;
  /** Network address it came from. */
  readonly from?: string;
};

export type Audit = {
  add(seen: Seen): void;
  /** Puts another id in the place of these people's. On disk when this resolves. */
  forget(people: readonly Forgotten[]): Promise<void>;
  /** Resolves when all of it is written, or could not be. */
  settle(): Promise<void>;
};

/** Into `folder`; `now` gives ms since 1970. What cannot be written is said to `log`. */
export function auditIn(folder: string, now: () => number, log: (line: string) => void): Audit {
  let last: Promise<void> = Promise.resolve();
  return {
    add: (seen) => {
      const line = `${JSON.stringify({ at: new Date(now()).toISOString(), ...seen })}\n`;
      last = last
        .then(() => append(join(folder, AUDIT_NAME), line))
        .catch((error: unknown) => log(`Could not write ${AUDIT_NAME}: ${String(error)}`));
    },
    forget: (people) => {
      const forgotten = last.then(() => rewrite(join(folder, AUDIT_NAME), people));
      last = forgotten.catch(() => {});
      return forgotten;
    },
    settle: () => last,
  };
}

/** For a hub that keeps nothing. */
export const NO_AUDIT: Audit = { add: () => {}, forget: async () => {}, settle: async () => {} };

async function append(path: string, line: string): Promise<void> {
  const file = await open(path, 'a', OWNER_ONLY);
  try {
    await file.appendFile(line);
  } finally {
    await file.close();
  }
}

async function rewrite(path: string, people: readonly Forgotten[]): Promise<void> {
  const text = await readFile(path, 'utf8').catch((error: unknown) => {
    if (codeOf(error) === 'ENOENT') return '';
    throw error;
  });
  const left = text
    .split('\n')
    .map((line) => (people.some(({ id }) => line.includes(`"${id}"`)) ? lineWithout(line, people) : line));
  if (left.join('\n') !== text) await writeWhole(path, left.join('\n'));
}

/** A line that a power cut left unfinished says nothing that can be cleared. */
function lineWithout(line: string, people: readonly Forgotten[]): string {
  try {
    return JSON.stringify(withoutAll<unknown>(JSON.parse(line), people));
  } catch {
    return '';
  }
}
