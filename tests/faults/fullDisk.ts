/** Disks that really have no room: a tiny file system of its own where this user may mount one, and a limit on a process. */
import { execFileSync, spawn, type ChildProcess } from 'node:child_process';
import { openSync, closeSync, readdirSync, statSync, unlinkSync, writeSync } from 'node:fs';
import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const MAIN = fileURLToPath(new URL('openHub.ts', import.meta.url));

/** Room on it: the hub asks for a megabyte before it goes on. */
const DISK_BYTES = 3 * 1024 * 1024;

/** A file system in memory at `path`; null where this user may not mount one. */
export async function tinyDisk(path: string): Promise<TinyDisk | null> {
  await mkdir(path);
  try {
    execFileSync('mount', ['-t', 'tmpfs', '-o', `size=${DISK_BYTES}`, 'tmpfs', path], { stdio: 'ignore' });
  } catch {
    return null;
  }
  return new TinyDisk(path);
}

export class TinyDisk {
  readonly path: string;

  constructor(path: string) {
    this.path = path;
  }

  /** Until not one byte more can be written, not even into a page that a file has already. */
  fill(): void {
    const file = openSync(join(this.path, 'filling'), 'a');
    for (const size of [65_536, 4096]) {
      const bytes = Buffer.alloc(size, 1);
      try {
        for (;;) if (writeSync(file, bytes) < size) break;
      } catch {
        // ENOSPC: full by this size.
      }
    }
    closeSync(file);
  }

  empty(): void {
    unlinkSync(join(this.path, 'filling'));
  }

  /** Names and sizes of all that is on it. */
  files(): Record<string, number> {
    const all = readdirSync(this.path, { recursive: true, encoding: 'utf8' }).sort();
    return Object.fromEntries(all.map((name) => [name, statSync(join(this.path, name)).size]));
  }

  remove(): void {
    execFileSync('umount', ['-l', this.path]);
  }
}

/**
 * A hub whose files may not grow beyond `kilobytes` (RLIMIT_FSIZE): the kernel writes up to there and no further. Needs no
 * rights, but a Linux with `prlimit`.
 */
export class LimitedHub {
  readonly #child: ChildProcess;
  #errors = '';

  private constructor(child: ChildProcess) {
    this.#child = child;
    child.stderr?.on('data', (text: Buffer) => (this.#errors += text.toString('utf8')));
  }

  static async start(data: string): Promise<{ hub: LimitedHub; port: number }> {
    const args = [MAIN, '--port', '0', '--host', '127.0.0.1', '--data', data];
    // Without the trap the kernel would end a process that comes up against the limit.
    const child = spawn('sh', ['-c', 'trap "" XFSZ; exec "$0" "$@"', process.execPath, ...args], {
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    const hub = new LimitedHub(child);
    const port = await new Promise<number>((done, fail) => {
      let output = '';
      child.stdout.on('data', (text: Buffer) => {
        output += text.toString('utf8');
        const found = /localhost:(\d+)/.exec(output)?.[1];
        if (found) done(Number(found));
      });
      child.once('close', (code) => fail(new Error(`the hub ended with ${code}: ${hub.#errors}`)));
    });
    return { hub, port };
  }

  get errors(): string {
    return this.#errors;
  }

  get isRunning(): boolean {
    return this.#child.exitCode === null && this.#child.signalCode === null;
  }

  /** From now on no file of it can be longer than this. */
  limit(bytes: number | 'unlimited'): void {
    execFileSync('prlimit', ['--pid', String(this.#child.pid), `--fsize=${bytes}:`]);
  }

  async end(): Promise<void> {
    if (!this.isRunning) return;
    const gone = new Promise((done) => this.#child.once('close', done));
    this.#child.kill('SIGKILL');
    await gone;
  }
}
