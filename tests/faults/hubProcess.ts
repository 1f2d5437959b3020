/** A hub in a process of its own, for tests that kill it. */
import { spawn, type ChildProcess } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { keptCode } from '../../hub/gate/consoleCode.ts';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));

export type Ended = { readonly code: number | null; readonly signal: string | null; readonly errors: string };

export class HubProcess {
  readonly port: number;
  readonly #data: string;
  readonly #child: ChildProcess;
  readonly #ended: Promise<Ended>;
  readonly #output: () => string;

  private constructor(
    data: string,
    child: ChildProcess,
    port: number,
    ended: Promise<Ended>,
    output: () => string,
  ) {
    this.#data = data;
    this.#child = child;
    this.port = port;
    this.#ended = ended;
    this.#output = output;
  }

  /** Resolves when the hub has printed its address. Rejects when it ends before that. It lets everybody in. */
  static async start(data: string): Promise<HubProcess> {
    return HubProcess.#started(data, spawnHub(OPEN, ['--port', '0', '--data', data]));
  }

  /** With its gate. */
  static async startGated(data: string, ...more: string[]): Promise<HubProcess> {
    return HubProcess.#started(data, spawnHub(SHIPPED, ['--port', '0', '--data', data, ...more]));
  }

  static async #started(data: string, child: ChildProcess): Promise<HubProcess> {
    const ended = ending(child);
    let output = '';
    const port = await new Promise<number>((done, fail) => {
      child.stderr?.on('data', (text: Buffer) => (output += text.toString('utf8')));
      child.stdout?.on('data', (text: Buffer) => {
        output += text.toString('utf8');
        const found = /localhost:(\d+)/.exec(output)?.[1];
        if (found) done(Number(found));
      });
      void ended.then(({ code, errors }) => fail(new Error(`the hub ended with ${code}: ${errors}`)));
    });
    return new HubProcess(data, child, port, ended, () => output);
  }

  /** Runs a hub that is expected to end by itself. */
  static async run(...args: string[]): Promise<Ended> {
    return ending(spawnHub(SHIPPED, args));
  }

  /** Resolves with the pairing code it shows. */
  async code(): Promise<string> {
    for (;;) {
      const kept = keptCode(this.#data);
      if (kept) return kept.code;
      await new Promise((next) => setTimeout(next, 20));
    }
  }

  /** All it has printed. */
  get printed(): string {
    return this.#output();
  }

  /** Of the operating system; undefined when it could not be started. */
  get pid(): number | undefined {
    return this.#child.pid;
  }

  end(signal: 'SIGKILL' | 'SIGTERM' | 'SIGINT'): Promise<Ended> {
    this.#child.kill(signal);
    return this.#ended;
  }
}

const SHIPPED = join(ROOT, 'hub/run.ts');
const OPEN = join(ROOT, 'tests/faults/openHub.ts');

function spawnHub(script: string, args: readonly string[]): ChildProcess {
  return spawn(process.execPath, [script, '--host', '127.0.0.1', ...args], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
}

function ending(child: ChildProcess): Promise<Ended> {
  let errors = '';
  child.stderr?.on('data', (text: Buffer) => (errors += text.toString('utf8')));
  return new Promise((done) => child.on('close', (code, signal) => done({ code, signal, errors })));
}

/** A new folder under the system's own for such, and its end. */
export async function tempFolder(): Promise<{ path: string; remove: () => Promise<void> }> {
  const path = await mkdtemp(join(tmpdir(), 'aisle-board-'));
  return { path, remove: () => rm(path, { recursive: true, force: true }) };
}
