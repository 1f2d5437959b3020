/** `npm run pairing-code`: shows the code that pairs the first tablets, to whoever may read the hub's folder. */
import { parseArgs } from 'node:util';
import { keptCode } from './gate/consoleCode.ts';
import { codeLines } from './greeting.ts';
import { INSTALLED_DATA } from './service/unit.ts';
import { runCommandLine, StartError } from './startError.ts';

const USAGE = 'Usage: npm run pairing-code -- [--data DIR]';

async function main(args: readonly string[]): Promise<void> {
  const folders = readArguments(args);
  const kept = folders.map(keptCode).find((one) => one !== null);
  if (!kept) {
    throw new StartError(
      `No hub that runs on ${folders.join(' or ')} shows a code: once there is a coordinator, codes are made on the ` +
        'Coordinator screen, under Tablets.',
    );
  }
  console.log(codeLines(kept, process.stdout.isTTY));
}

/** Where a hub may run: as a service, or from this folder. */
function readArguments(args: readonly string[]): readonly string[] {
  try {
    const { values } = parseArgs({ args: [...args], options: { data: { type: 'string' } } });
    return values.data === undefined ? ['data', INSTALLED_DATA] : [values.data];
  } catch {
    throw new StartError(USAGE);
  }
}

if (import.meta.main) await runCommandLine(main);
