/** The hub, put together: the only file that names what each part really is. */
import { randomBytes, randomUUID } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Board } from '#core/day/board.ts';
import type { BarnClock } from '#core/wire/messages.ts';
import { isOnlyHere, lanAddresses } from './addresses.ts';
import { readArguments } from './arguments.ts';
import { greeting } from './greeting.ts';
import { ForecastThread } from './forecastThread.ts';
import { buildName, kioskFiles } from './kioskFiles.ts';
import { PacedPlanner } from './planner.ts';
import { Room } from './room.ts';
import { openSockets } from './sockets.ts';
import { StartError } from './startError.ts';
import { openDiskStorage } from './storage/disk.ts';
import { Memory, openMemoryStorage } from './storage/memory.ts';
import { emptyBeginning, type Beginning } from './storage/storage.ts';
import { keepToday } from './today.ts';
import { closeWhenStopped } from './untilStopped.ts';
import { takePort } from './web.ts';

export { StartError } from './startError.ts';

export type HubOptions = {
  /** 0: any free one. */
  readonly port: number;
  /** Address to listen on; default all. */
  readonly host?: string;
  /** Folder of this board's snapshot and journal, made when missing; null: kept in memory only. */
  readonly folder: string | null;
  /** Hub time in ms since 1970; default the computer's clock. */
  readonly clock?: () => number;
  /** How barn time runs against hub time; default alike. */
  readonly barnClock?: BarnClock;
  /** A demo brings its own day, and its coordinator may leave it by `startBarn`. */
  readonly demo?: boolean;
  /** The board to begin with when the folder is empty; default an empty barn in this computer's zone. */
  readonly first?: Board;
  readonly onStartBarn?: (name: string, zone: string) => void;
  /** The disk has failed and this hub answers no more; default: the process ends with code 1. */
  readonly onFailure?: (error: unknown) => void;
  /** Folder of the kiosk's built pages; default `kiosk/build`. */
  readonly kiosk?: string;
  /** One line at a time, with nothing personal in it; default standard error. */
  readonly log?: (line: string) => void;
};

export type Hub = {
  readonly port: number;
  /** The barn's name as it stands. */
  readonly barnName: () => string;
  /** Addresses for tablets, best first. */
  readonly addresses: readonly string[];
  /** Finishes what is under way, writes a snapshot, says goodbye to every tablet and gives the port and folder back. */
  close(): Promise<void>;
};

const ROOT = fileURLToPath(new URL('..', import.meta.url));

/** Starts a hub. Throws StartError, with nothing changed, when it cannot. */
export async function openHub(options: HubOptions): Promise<Hub> {
  const clock = options.clock ?? Date.now;
  const log = options.log ?? ((line: string) => console.error(line));
  const host = options.host ?? '0.0.0.0';
  const kiosk = options.kiosk ?? join(ROOT, 'kiosk/build');
  const startedAt = clock();
  const barnClock = options.barnClock ?? { hub: startedAt, barn: startedAt, rate: 1 };

  const web = await takePort(options.port, host);
  try {
    const storage = options.folder
      ? await openDiskStorage(options.folder, beginning(options.first), startedAt)
      : openMemoryStorage(new Memory(), beginning(options.first));
    const { torn } = storage.opened;
    if (torn) log(`An unfinished last write was cut off ${torn.file} and kept as ${torn.keptAs}.`);

    const addresses = isOnlyHere(host) ? [] : lanAddresses(web.port);
    const room: Room = new Room({
      storage,
      planner: new PacedPlanner({
        forecaster: new ForecastThread(),
        barnNow: () => room.barnNow(),
        failed: (error) => log(`The forecast failed: ${String(error)}`),
      }),
      clock,
      barnClock,
      demo: options.demo ?? false,
      build: buildName(kiosk),
      addresses: () => addresses,
      onStartBarn: options.onStartBarn ?? (() => {}),
      // Memory is ahead of the disk now: going on would show what a restart has forgotten.
      onFailure: options.onFailure ?? (() => process.exit(1)),
      log,
      newId: () => `hub-${randomBytes(8).toString('hex')}`,
    });
    room.start();
    const stopToday = options.demo
      ? () => {}
      : await keepToday({
          board: () => room.board,
          barnNow: () => room.barnNow(),
          bring: (fact) => room.bring(fact),
        });
    const sockets = openSockets(room);
    const version = packageVersion();
    const health = (): unknown => ({
      status: 'ok',
      version,
      journal: storage.opened.journal,
      seq: room.seq,
      uptimeS: Math.round((clock() - startedAt) / 1000),
      connections: room.connections,
      demo: options.demo ?? false,
      forecastAgeMs: room.forecastAt === null ? null : clock() - room.forecastAt,
      tornTail: torn,
    });
    web.serve({ health, pages: kioskFiles(kiosk), sockets });

    return {
      port: web.port,
      barnName: () => room.board.barn.name,
      addresses,
      close: async () => {
        stopToday();
        await room.close();
        await sockets.stop();
        await web.stop();
        await storage.close();
      },
    };
  } catch (error) {
    await web.stop();
    throw error;
  }
}

function beginning(first: Board | undefined): Beginning {
  const journal = randomUUID().replaceAll('-', '');
  const { timeZone } = Intl.DateTimeFormat().resolvedOptions();
  return first ? { board: first, journal } : emptyBeginning(timeZone, journal);
}

function packageVersion(): string {
  const { version } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')) as { version: string };
  return version;
}

/** Runs the real barn's hub until Ctrl-C or SIGTERM. */
async function main(args: readonly string[]): Promise<void> {
  const { port, data, host } = readArguments(args);
  const hub = await openHub({ port, host, folder: join(data, 'barn') });
  console.log(greeting(hub.barnName(), `http://localhost:${hub.port}`, hub.addresses, process.stdout.isTTY));
  closeWhenStopped(() => hub.close());
}

if (import.meta.main) {
  try {
    await main(process.argv.slice(2));
  } catch (error) {
    if (!(error instanceof StartError)) throw error;
    console.error(error.message);
    process.exitCode = 1;
  }
}
