/**
 * `npm run update -- FOLDER` brings the program in FOLDER (a stick, or a clone that has been started once) into the installed
 * service; `npm run update -- --back` goes back to the one before. No network is needed. The barn is backed up first; a
 * program that does not come up gives way to the one before.
 */
import { mkdir } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { DEFAULT_PORT } from '../arguments.ts';
import { takeBackup, writeBackup } from '../backup.ts';
import { asOwner } from '../owner.ts';
import { runCommandLine, StartError } from '../startError.ts';
import { isWanted, type Step } from './asked.ts';
import { runCommand, type Command } from './command.ts';
import { INSTALLED_AT } from './install.ts';
import { isThere, readProgram } from './program.ts';
import { Releases } from './releases.ts';
import { stamp } from './stamp.ts';
import { INSTALLED_DATA, SERVICE } from './unit.ts';

const UP_WITHIN_MS = 60_000;
const LOOK_EVERY_MS = 500;

const USAGE = 'Usage: npm run update -- FOLDER | --back [--port 4610] [--yes]';

export type Updating = {
  readonly root: string;
  /** The hub's data folder. */
  readonly data: string;
  readonly now: number;
  readonly command: Command;
  /** Resolves with whether the hub answers as it should before long. */
  readonly isUp: () => Promise<boolean>;
};

/** What an update from `folder` does, in order. Throws StartError when there is nothing to bring, or nowhere to. */
export async function updateSteps(folder: string, how: Updating): Promise<Step[]> {
  const program = await readProgram(folder);
  const releases = await installed(how.root);
  const before = await releases.named('current');
  const at = stamp(how.now);
  const backups = join(how.data, 'backups');
  return [
    {
      says: `back up the barn into ${backups}`,
      run: async () => {
        if (!(await isThere(join(how.data, 'barn')))) return;
        await asOwner(how.data, async () => {
          await mkdir(backups, { recursive: true, mode: 0o700 });
          const backup = await takeBackup(join(how.data, 'barn'), how.now);
          await writeBackup(join(backups, `before-update-${at}.backup`), backup);
        });
      },
    },
    {
      says: `copy Aisle Board ${program.version} from ${folder} and start it in place of ${before}`,
      run: async () => {
        const name = await releases.add(program, at);
        await releases.use(name);
        await restart(how, async () => {
          if (before !== null) await releases.use(before);
          await releases.remove(name);
        });
      },
    },
  ];
}

/** What going back does, in order. Throws StartError when there is no program before this one. */
export async function backSteps(how: Updating): Promise<Step[]> {
  const releases = await installed(how.root);
  const [now, before] = [await releases.named('current'), await releases.named('previous')];
  if (before === null || now === null) throw new StartError('There is no program before this one.');
  return [
    {
      says: `start ${before} again in place of ${now}`,
      run: async () => {
        await releases.use(before);
        await restart(how, () => releases.use(now));
      },
    },
  ];
}

async function installed(root: string): Promise<Releases> {
  const releases = new Releases(root);
  if ((await releases.named('current')) === null) {
    throw new StartError(`Nothing is installed in ${root} yet: use npm run install-service.`);
  }
  return releases;
}

/** The program before must come up again even when this one did not stop as it should. */
async function restart({ command, isUp }: Updating, giveWay: () => Promise<void>): Promise<void> {
  const tried = await command('systemctl', ['restart', SERVICE]).then(
    () => null,
    (error: unknown) => error,
  );
  if (tried === null && (await isUp())) return;
  await giveWay();
  await command('systemctl', ['restart', SERVICE]);
  throw new StartError(
    `It did not come up, so the program before is running again. "journalctl -u ${SERVICE}" has what it said. ` +
      'If it said that the data is of a newer program, put the backup made at the update back first (npm run restore).',
  );
}

/** Whether /health on `port` says that all is well within a minute. */
export async function answersWell(port: number, withinMs = UP_WITHIN_MS): Promise<boolean> {
  const until = performance.now() + withinMs;
  while (performance.now() < until) {
    const isWell = await fetch(`http://localhost:${port}/health`).then(
      async (answer) => answer.ok && /"ok"/.test(await answer.text()),
      () => false,
    );
    if (isWell) return true;
    await new Promise((done) => setTimeout(done, LOOK_EVERY_MS));
  }
  return false;
}

async function main(args: readonly string[]): Promise<void> {
  const { folder, port, yes } = readArguments(args);
  const how: Updating = {
    root: INSTALLED_AT,
    data: INSTALLED_DATA,
    now: Date.now(),
    command: runCommand,
    isUp: () => answersWell(port),
  };
  const steps = folder === null ? await backSteps(how) : await updateSteps(resolve(folder), how);
  if (!(await isWanted(steps, yes))) return;
  for (const { says, run } of steps) {
    console.log(`… ${says}`);
    await run();
  }
  console.log('Done.');
}

function readArguments(args: readonly string[]): { folder: string | null; port: number; yes: boolean } {
  try {
    const { values, positionals } = parseArgs({
      args: [...args],
      options: { back: { type: 'boolean' }, port: { type: 'string' }, yes: { type: 'boolean' } },
      allowPositionals: true,
    });
    const port = Number(values.port ?? DEFAULT_PORT);
    const [folder, ...more] = positionals;
    const isOne = more.length === 0 && (folder === undefined) === (values.back ?? false);
    if (isOne && Number.isInteger(port)) return { folder: folder ?? null, port, yes: values.yes ?? false };
  } catch {
    // The usage says it all.
  }
  throw new StartError(USAGE);
}

if (import.meta.main) await runCommandLine(main);
