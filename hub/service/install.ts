/**
 * `npm run install-service`: makes this computer start the hub by itself. Says what it will do, asks, then does it; it needs
 * a Linux with systemd, and root. This copy of the program stays as it is.
 */
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { DEFAULT_PORT } from '../arguments.ts';
import { runCommandLine, StartError } from '../startError.ts';
import { isWanted, type Step } from './asked.ts';
import { runCommand, type Command } from './command.ts';
import { isThere, readProgram } from './program.ts';
import { Releases } from './releases.ts';
import { stamp } from './stamp.ts';
import { INSTALLED_DATA, SERVICE, STATE, unitText } from './unit.ts';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));

export const INSTALLED_AT = '/opt/aisle-board';
const USER = 'aisle-board';
const UNITS = '/etc/systemd/system';

const USAGE = 'Usage: npm run install-service -- [--port 4610] [--options "--tls"] [--yes]';

export type Installing = {
  /** Folder of the program to install, and where it goes. */
  readonly from: string;
  readonly root: string;
  readonly units: string;
  readonly port: number;
  /** More of the hub's options, each with a space in front. */
  readonly more: string;
  readonly at: string;
  readonly command: Command;
};

/** What installing does, in order. Throws StartError when it could not work. */
export async function installSteps(how: Installing): Promise<Step[]> {
  const { root, units, port, more, command } = how;
  const program = await readProgram(how.from);
  const releases = new Releases(root);
  const data = INSTALLED_DATA;
  const text = unitText({ root, user: USER, state: STATE, data, port, more });
  const unit = join(units, SERVICE);
  if (await isThere(unit)) {
    throw new StartError(`${unit} is there already. To bring a newer program, use npm run update -- FOLDER.`);
  }
  const copyName = `${program.version}-${how.at}`;
  return [
    {
      says: `make the user "${USER}", which can do nothing but run the hub`,
      run: () =>
        command('sh', [
          '-c',
          `id ${USER} >/dev/null 2>&1 || useradd --system --user-group --home-dir ${data} --shell /usr/sbin/nologin ${USER}`,
        ]),
    },
    {
      says: `copy this program to ${releases.folderOf(copyName)} and link it as ${join(root, 'current')}`,
      run: async () => releases.use(await releases.add(program, how.at)),
    },
    { says: `write ${unit}`, run: () => writeFile(unit, text, { mode: 0o644 }) },
    {
      says: `start ${SERVICE} now and after every switching on; the barn's records go to ${data}`,
      run: async () => {
        await command('systemctl', ['daemon-reload']);
        await command('systemctl', ['enable', '--now', SERVICE]);
      },
    },
  ];
}

async function main(args: readonly string[]): Promise<void> {
  const { port, options, yes } = readArguments(args);
  const steps = await installSteps({
    from: ROOT,
    root: INSTALLED_AT,
    units: UNITS,
    port,
    more: options === '' ? '' : ` ${options}`,
    at: stamp(Date.now()),
    command: runCommand,
  });
  if (process.getuid?.() !== 0) console.log('Run it with sudo to have it done.');
  if (!(await isWanted(steps, yes))) return;
  if (process.getuid?.() !== 0) throw new StartError('Only root can do this: sudo npm run install-service');
  for (const { says, run } of steps) {
    console.log(`… ${says}`);
    await run();
  }
  console.log(
    `Done. "systemctl status ${SERVICE}" shows how it is, "journalctl -u ${SERVICE}" what it said.`,
  );
}

function readArguments(args: readonly string[]): { port: number; options: string; yes: boolean } {
  try {
    const { values } = parseArgs({
      args: [...args],
      options: { port: { type: 'string' }, options: { type: 'string' }, yes: { type: 'boolean' } },
    });
    const port = Number(values.port ?? DEFAULT_PORT);
    if (Number.isInteger(port) && port > 0 && port < 65_536) {
      return { port, options: values.options?.trim() ?? '', yes: values.yes ?? false };
    }
  } catch {
    // The usage says it all.
  }
  throw new StartError(USAGE);
}

if (import.meta.main) await runCommandLine(main);
