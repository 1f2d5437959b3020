/** The demo, put together: an invented barn's afternoon on a real hub, over and over, until somebody starts a real barn. */
import { join } from 'node:path';
import { emptyBoard } from '#core/day/emptyBoard.ts';
import { wallTimeAt } from '#core/time/zone.ts';
import { consoleCode } from '../hub/gate/consoleCode.ts';
import { codeOnTerminal, greeting } from '../hub/greeting.ts';
import { openHub, StartError, type Hub, type HubOptions } from '../hub/main.ts';
import { runCommandLine } from '../hub/startError.ts';
import { readDemoArguments, type DemoArguments } from './arguments.ts';
import { DEMO_ZONE } from './barn.ts';
import { freshDemoFolder } from './folder.ts';
import { putPastDaysBy } from './pastDays.ts';
import { playAfternoon } from './player.ts';
import { demoDay } from './simulate.ts';

export type DemoOptions = Omit<DemoArguments, 'names'> &
  Pick<HubOptions, 'names' | 'kiosk' | 'log' | 'showCode'>;

export class Demo {
  readonly #options: DemoOptions;
  readonly #log: (line: string) => void;
  #hub: Hub | null = null;
  #players = new AbortController();
  #playing: Promise<void> = Promise.resolve();
  /** What is done to the hub is done one thing after the other. */
  #turn: Promise<void> = Promise.resolve();
  #rounds = 0;
  #ended = false;
  /** Rejects when the demo cannot go on. */
  readonly failed = Promise.withResolvers<never>();

  private constructor(options: DemoOptions) {
    this.#options = options;
    this.#log = options.log ?? ((line) => console.error(line));
    this.failed.promise.catch(() => {});
  }

  /** Throws StartError, with nothing left running, when it cannot start. */
  static async open(options: DemoOptions): Promise<Demo> {
    const demo = new Demo(options);
    await demo.#begin(options.port);
    return demo;
  }

  /** The hub as it runs now: of the demo, or of the real barn once that was started. */
  get hub(): Hub {
    if (!this.#hub) throw new Error('the demo has no hub just now');
    return this.#hub;
  }

  /** Stops players and hub; nothing begins anew after it. */
  async close(): Promise<void> {
    this.#ended = true;
    this.#players.abort();
    await this.#turn;
    await this.#stop();
  }

  /** A fresh board at the afternoon's beginning, and the people who play it. */
  async #begin(port: number): Promise<void> {
    const { data, host, names = [], speed, seed, date, kiosk } = this.#options;
    const now = Date.now();
    const today = date ?? wallTimeAt(now, DEMO_ZONE).date;
    const folder = await freshDemoFolder(data);
    await putPastDaysBy(folder, today, seed);
    const { board, ...cast } = demoDay(today);
    const hub = await openHub({
      port,
      host,
      folder,
      names,
      demo: true,
      open: true,
      first: board,
      barnClock: { hub: now, barn: cast.from, rate: speed },
      onStartBarn: (name, zone, code) => this.#next(() => this.#startBarn(name, zone, code)),
      log: this.#log,
      ...(kiosk !== undefined && { kiosk }),
    });
    this.#hub = hub;
    this.#players = new AbortController();
    const { signal } = this.#players;
    const url = `ws://${reachable(host)}:${hub.port}/live`;
    this.#playing = playAfternoon(url, { ...cast, seed: seed + this.#rounds }, signal).then(
      () => this.#next(() => this.#beginAnew(signal)),
      (error: unknown) => {
        if (!signal.aborted) this.failed.reject(error);
      },
    );
    this.#rounds += 1;
  }

  async #beginAnew(played: AbortSignal): Promise<void> {
    // A real barn may have been started at the very end of the afternoon.
    if (played.aborted) return;
    const { port } = this.hub;
    await this.#stop();
    await this.#begin(port);
  }

  async #startBarn(name: string, zone: string, code: string | null): Promise<void> {
    // Two tablets may ask at once; the first one counts.
    if (this.#players.signal.aborted) return;
    const { port } = this.hub;
    const { data, host, names = [], kiosk, showCode } = this.#options;
    await this.#stop();
    this.#hub = await openHub({
      port,
      host,
      folder: join(data, 'barn'),
      names,
      first: emptyBoard(name, zone),
      firstCode: code,
      log: this.#log,
      ...(showCode && { showCode }),
      ...(kiosk !== undefined && { kiosk }),
    });
    this.#log(`The demo has ended; ${this.#hub.barnName()} is on the board.`);
  }

  async #stop(): Promise<void> {
    this.#players.abort();
    await this.#playing;
    await this.#hub?.close();
    this.#hub = null;
  }

  #next(task: () => Promise<void>): void {
    this.#turn = this.#turn
      .then(() => (this.#ended ? undefined : task()))
      .catch((error: unknown) => this.failed.reject(error));
  }
}

/** Where the demo's own tablets find a hub that listens on `host`. */
function reachable(host: string): string {
  if (host === '0.0.0.0' || host === '::') return '127.0.0.1';
  return host.includes(':') ? `[${host}]` : host;
}

async function main(args: readonly string[]): Promise<void> {
  const asked = readDemoArguments(args);
  const showCode = consoleCode({ data: asked.data, terminal: codeOnTerminal(), log: console.error });
  const demo = await Demo.open({ ...asked, showCode });
  const { hub } = demo;
  const name = `${hub.barnName()} (an invented barn, sped up)`;
  console.log(greeting(name, `http://localhost:${hub.port}`, hub.addresses, process.stdout.isTTY));
  let ending = false;
  const end = (code: number): void => {
    if (ending) return;
    ending = true;
    void demo.close().then(() => process.exit(code));
  };
  process.on('SIGINT', () => end(0));
  process.on('SIGTERM', () => end(0));
  await demo.failed.promise.catch((error: unknown) => {
    console.error(error instanceof StartError ? error.message : error);
    end(1);
  });
}

if (import.meta.main) await runCommandLine(main);
