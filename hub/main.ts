/** The hub, put together: the only file that names what each part really is. */
import { randomBytes, randomUUID } from 'node:crypto';
import { readFileSync } from 'node:fs';
import type { IncomingMessage } from 'node:http';
import { join } from 'node:path';
import type { Board } from '#core/day/board.ts';
import { Accounts } from './accounts.ts';
import { isOnlyHere, lanAddresses } from './addresses.ts';
import { watchAlerts } from './alertWatch.ts';
import { SteadyClock, systemClocks } from './clock.ts';
import { backupEndpoint } from './backupDownload.ts';
import { namesOf } from './gate/hosts.ts';
import { Crowd, LIMITS, OPEN_LIMITS } from './gate/limits.ts';
import { EVERYBODY, setUpGate } from './gate/setUp.ts';
import { healthEndpoint } from './health.ts';
import { setUpFeeds } from './feeds.ts';
import { ForecastThread } from './forecastThread.ts';
import { Forgetting } from './forgetting.ts';
import { buildName, kioskFiles } from './kioskFiles.ts';
import { importEndpoint } from './imports.ts';
import { Learning } from './learning.ts';
import { photoMemory, photosEndpoints } from './photos.ts';
import { peopleEndpoints } from './people.ts';
import { PacedPlanner } from './planner.ts';
import { finishRestore } from './restore.ts';
import { Room } from './room.ts';
import { ROOT } from './root.ts';
import { openSockets } from './sockets.ts';
import { StandInThread } from './standIns.ts';
import { openDiskStorage } from './storage/disk.ts';
import { metricsEndpoint } from './metrics.ts';
import type { Hub, HubOptions } from './options.ts';
import { Memory, openMemoryStorage } from './storage/memory.ts';
import { photoFolder, PHOTOS_FOLDER } from './storage/photoFolder.ts';
import { emptyBeginning, type Beginning } from './storage/storage.ts';
import { keepToday } from './today.ts';
import { takePort } from './web.ts';

export { StartError } from './startError.ts';
export type { Hub, HubOptions } from './options.ts';

/** Long enough not to wear out a card, short enough for somebody who stands there and makes room. */
const MEND_EVERY_MS = 3000;

/** Far longer than a good disk ever needs, short enough that nobody taps for minutes in vain. */
const SLOW_DISK_MS = 5000;

/** Starts a hub. Throws StartError, with nothing changed, when it cannot. */
export async function openHub(options: HubOptions): Promise<Hub> {
  const log = options.log ?? ((line: string) => console.error(line));
  const host = options.host ?? '0.0.0.0';
  const version = packageVersion();
  const kiosk = options.kiosk ?? join(ROOT, 'kiosk/build');
  const steady = new SteadyClock({
    ...(options.clocks ?? systemClocks(options.demo ?? false)),
    changed: () => room.sayStatus(),
    log,
  });
  const clock = options.clock ?? ((): number => steady.now());
  const startedAt = clock();
  const barnClock = options.barnClock ?? { hub: startedAt, barn: startedAt, rate: 1 };

  let room: Room;
  const isOpen = options.open ?? false;
  const limits = options.limits ?? (isOpen ? OPEN_LIMITS : LIMITS);
  const { certificates } = options;
  const web = await takePort(
    options.port,
    host,
    new Crowd(limits),
    certificates ? () => certificates.shown : null,
  );
  try {
    if (options.folder && (await finishRestore(options.folder))) log('A restore that was cut off was ended.');
    const storage = options.folder
      ? await openDiskStorage(options.folder, beginning(options.first), startedAt)
      : openMemoryStorage(new Memory(), beginning(options.first));
    const { torn } = storage.opened;
    if (torn) log(`An unfinished last write was cut off ${torn.file} and kept as ${torn.keptAs}.`);

    const addresses = isOnlyHere(host) ? [] : lanAddresses(web.port, certificates !== undefined);
    const forecaster = new ForecastThread();
    const standIns = new StandInThread();
    const learning = new Learning({
      storage,
      board: () => room.board,
      today: () => room.lastEntries,
      learned: (learned) => {
        forecaster.learn(learned);
        standIns.learn(learned);
      },
      log,
    });
    const forgetOld = (): void => {
      const { date } = room.board.day;
      const { daysFolder } = storage;
      if (daysFolder === null || date === null) return;
      void forgetting.oldDays({ daysFolder, today: date, keepDays: room.board.barn.rules.keepPersonalDays });
    };
    const newId = (): string => `hub-${randomBytes(8).toString('hex')}`;
    const gate = isOpen
      ? EVERYBODY
      : await setUpGate({
          folder: options.folder,
          clock,
          port: () => web.port,
          board: () => room.board,
          bring: (fact) => room.bring(fact),
          newId,
          showCode: (code) => options.showCode?.(code, addresses),
          firstCode: options.firstCode ?? null,
          log,
        });
    const feeds = await setUpFeeds({
      folder: options.folder,
      board: () => room.board,
      barnNow: () => room.barnNow(),
      newId,
    });
    const forgetting = new Forgetting({
      folder: options.folder,
      erase: (people, run) => room.erase(people, run),
      others: [feeds.forget, gate.forget],
      newRun,
      done: () => void learning.learn(),
      log,
    });
    room = new Room({
      storage,
      gate: gate.gate,
      grant: gate.grant,
      tablets: gate.tablets,
      planner: new PacedPlanner({
        forecaster,
        barnNow: () => room.barnNow(),
        failed: (error) => log(`The forecast failed: ${String(error)}`),
      }),
      standIns,
      clock,
      barnClock,
      demo: options.demo ?? false,
      build: buildName(kiosk),
      addresses: () => addresses,
      onStartBarn: options.onStartBarn ?? (() => {}),
      version,
      clockJump: () => steady.jump,
      mendEveryMs: options.mendEveryMs ?? MEND_EVERY_MS,
      slowDiskAfterMs: SLOW_DISK_MS,
      dayKept: () => {
        void learning.learn();
        forgetOld();
      },
      log,
      newId,
    });
    if (!options.clock) steady.start();
    room.start();
    // What a crash has cut off.
    await forgetting.erase();
    forgetOld();
    learning.start();
    const stopToday = options.demo
      ? () => {}
      : await keepToday({
          board: () => room.board,
          barnNow: () => room.barnNow(),
          steadyForMs: () => steady.steadyForMs,
          bring: (fact) => room.bring(fact),
        });
    const stopWatching = watchAlerts({
      board: () => room.board,
      forecast: () => room.forecast,
      status: () => room.status,
      lastEntries: room.lastEntries,
      barnNow: () => room.barnNow(),
      bring: (fact) => room.bring(fact),
    });
    const accounts = new Accounts({
      storage,
      board: () => room.board,
      dayEntries: () => room.dayEntries(),
      barnNow: () => room.barnNow(),
      log,
    });
    gate.start((device) => room.gateChanged(device));
    const { tokenIn, renew } = gate;
    const isKnown = (request: IncomingMessage): boolean => !isOpen && gate.gate.who(request).is === 'tablet';
    const sockets = openSockets({
      room,
      limits,
      tokenIn,
      isKnown,
      renew,
      ...(options.heartbeat && { heartbeat: options.heartbeat }),
    });
    const health = () => ({
      status: room.status.readOnly ? 'readOnly' : 'ok',
      version,
      journal: storage.opened.journal,
      seq: room.seq,
      uptimeS: Math.round((clock() - startedAt) / 1000),
      connections: room.connections,
      demo: options.demo ?? false,
      forecastAgeMs: room.forecastAt === null ? null : clock() - room.forecastAt,
      readOnly: room.status.readOnly,
      tornTail: torn,
      clockJump: steady.jump,
      rssMb: Math.round(process.memoryUsage.rss() / 2 ** 20),
    });
    const endpoints = [
      healthEndpoint(health),
      metricsEndpoint(
        () => ({
          version,
          seq: room.seq,
          connections: room.connections,
          forecastAgeMs: room.forecastAt === null ? null : clock() - room.forecastAt,
          isReadOnly: room.status.readOnly !== null,
        }),
        options.openMetrics ?? false,
      ),
      accounts.endpoint,
      importEndpoint({ take: (op) => room.takeOne(op), barnNow: () => room.barnNow() }),
      ...peopleEndpoints({
        forgetting,
        storage,
        board: () => room.board,
        dayEntries: () => room.dayEntries(),
        take: (op) => room.takeOne(op),
        newId,
        barnNow: () => room.barnNow(),
      }),
      ...feeds.endpoints,
      backupEndpoint(options.folder, clock, gate.audit),
      ...photosEndpoints({
        shelf: options.folder ? photoFolder(join(options.folder, PHOTOS_FOLDER)) : photoMemory(),
        barn: () => room.board.barn,
        now: Date.now,
      }),
      ...gate.endpoints,
    ];
    web.serve({
      gate: gate.gate,
      isOurs: namesOf(options.names ?? []),
      endpoints,
      pages: kioskFiles(kiosk),
      sockets,
    });

    return {
      port: web.port,
      barnName: () => room.board.barn.name,
      addresses,
      certify: async (names) => {
        const shown = await certificates?.look(names, clock());
        if (shown) web.show(shown);
      },
      endpoints,
      close: async () => {
        stopToday();
        stopWatching();
        steady.stop();
        await forgetting.settle();
        await room.close();
        await learning.stop();
        await accounts.stop();
        await gate.stop();
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

/** A new name for a run of sequence numbers. */
function newRun(): string {
  return randomUUID().replaceAll('-', '');
}

function beginning(first: Board | undefined): Beginning {
  const journal = newRun();
  const { timeZone } = Intl.DateTimeFormat().resolvedOptions();
  return first ? { board: first, journal } : emptyBeginning(timeZone, journal);
}

function packageVersion(): string {
  const { version } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')) as { version: string };
  return version;
}
