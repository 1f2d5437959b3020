/**
 * `npm run reset-pin -- --data DIR`: the way back from a forgotten PIN. Whoever can run it on the hub could read the whole
 * folder anyway. It takes every coordinator's PIN away, and with it what was tried wrong; the tablets stay paired. The next
 * start shows a code on the hub's console, and the tablet that is paired with it may make the coordinator anew.
 */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { auditIn } from './gate/audit.ts';
import { gateFile } from './gate/gateFile.ts';
import { EMPTY_GATE } from './gate/record.ts';
import { asOwner } from './owner.ts';
import { runCommandLine, StartError } from './startError.ts';
import { lockFolder } from './storage/disk.ts';

const USAGE = 'Usage: npm run reset-pin -- --data DIR';

/**
 * Takes the PINs of the barn in `data` away; the answer is how many there were. `now` in ms, for the log. Throws StartError,
 * with nothing changed, when a hub runs on the folder or there is no barn in it.
 */
export async function resetPins(data: string, now: number): Promise<number> {
  const folder = join(data, 'barn');
  if (!existsSync(folder)) throw new StartError(`There is no barn in ${folder}. ${USAGE}`);
  const unlock = await lockFolder(folder);
  try {
    const store = gateFile(folder);
    const record = await store.read();
    await store.write({ ...record, pins: EMPTY_GATE.pins, tries: EMPTY_GATE.tries });
    const audit = auditIn(
      folder,
      () => now,
      (line) => console.error(line),
    );
    audit.add({ what: 'pinsReset' });
    await audit.settle();
    return Object.keys(record.pins).length;
  } finally {
    unlock();
  }
}

function readArguments(args: readonly string[]): string {
  try {
    const { values } = parseArgs({ args: [...args], options: { data: { type: 'string' } } });
    return values.data ?? 'data';
  } catch {
    throw new StartError(USAGE);
  }
}

async function main(args: readonly string[]): Promise<void> {
  const data = readArguments(args);
  const count = await asOwner(data, () => resetPins(data, Date.now()));
  console.log(
    `PINs taken away: ${count}. Start the hub; "npm run pairing-code" shows a code. Enter it on the coordinator’s tablet and choose a new PIN.`,
  );
}

if (import.meta.main) await runCommandLine(main);
