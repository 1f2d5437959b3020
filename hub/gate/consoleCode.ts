/**
 * The pairing code of the hub itself: on its own terminal where a person sits at one, and in a file that only the hub's user
 * can read. Never in what the hub prints for somebody else to keep, as a service manager keeps it.
 */
import { mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import * as z from 'zod/mini';
import { PairingCode } from '#core/wire/gate.ts';
import { codeOf, StartError } from '../startError.ts';

const CODE_NAME = 'pairing-code.json';
const OWNER_ONLY = 0o600;
const OWNER_ONLY_FOLDER = 0o700;

const Kept = z.object({ code: PairingCode, address: z.nullable(z.string()) });
/** `address`: of the hub, for tablets; null: it is reached from this computer only. */
export type Kept = z.infer<typeof Kept>;

/** Shows a code, or with null that none is needed any more. */
export type ShowCode = (code: string | null, addresses: readonly string[]) => void;

export type ConsoleParts = {
  /** The hub's data folder. */
  readonly data: string;
  /** Shows a code to the person at the terminal; null: nobody sits there. */
  readonly terminal: ((kept: Kept) => void) | null;
  readonly log: (line: string) => void;
};

export function consoleCode({ data, terminal, log }: ConsoleParts): ShowCode {
  const path = join(data, CODE_NAME);
  let isSaid = false;
  return (code, [address = null]) => {
    try {
      if (code === null) rmSync(path, { force: true });
      else keep(data, path, { code, address });
    } catch (error) {
      log(
        `The pairing code could not be kept (${codeOf(error)}): make room, or look at the rights of ${data}.`,
      );
    }
    if (code === null) return;
    terminal?.({ code, address });
    if (terminal === null && !isSaid)
      log('A tablet can be paired: "npm run pairing-code" at the hub shows the code.');
    isSaid = true;
  };
}

function keep(data: string, path: string, kept: Kept): void {
  mkdirSync(data, { recursive: true, mode: OWNER_ONLY_FOLDER });
  const made = `${path}.new`;
  // Whoever made a file of this name before us could still read it.
  rmSync(made, { force: true });
  writeFileSync(made, JSON.stringify(kept), { mode: OWNER_ONLY, flag: 'wx' });
  renameSync(made, path);
}

/** The code of the hub that runs on `data`; null: it shows none. Throws StartError where only another user may read it. */
export function keptCode(data: string): Kept | null {
  try {
    const parsed = Kept.safeParse(JSON.parse(readFileSync(join(data, CODE_NAME), 'utf8')));
    return parsed.success ? parsed.data : null;
  } catch (error) {
    if (codeOf(error) === 'EACCES')
      throw new StartError(`Only the hub's own user and root may read ${data}: use sudo.`);
    return null;
  }
}
