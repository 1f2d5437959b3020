/** A tablet of the bench: applies what comes as a tablet would, and says which changes it has applied. */
import { WebSocket } from 'ws';
import { evolve } from '#core/day/evolve.ts';
import type { Board } from '#core/day/board.ts';
import type { FromHub } from '#core/wire/messages.ts';
import { PROTOCOL } from '#core/wire/messages.ts';
import { change } from './scene.ts';

export type Kind = 'hub' | 'raw' | 'rawDisk';

/** Hears of each change this tablet has applied, by id. */
type Applied = (id: string) => void;

export class Tablet {
  readonly #socket: WebSocket;
  readonly #kind: Kind;
  board: Board | null = null;
  readonly tiles = new Map<string, unknown>();
  applied: Applied = () => {};
  /** Bytes of frames that carried changes, and of forecasts. */
  bytes = { changes: 0, forecasts: 0 };

  private constructor(kind: Kind, port: number) {
    this.#kind = kind;
    this.#socket = new WebSocket(`ws://127.0.0.1:${port}/live`, { perMessageDeflate: false });
  }

  /** Connected and brought up to date; `ms` and `bytes` say what that took. */
  static async join(
    kind: Kind,
    port: number,
    name: string,
  ): Promise<{ tablet: Tablet; ms: number; bytes: number }> {
    const started = performance.now();
    const tablet = new Tablet(kind, port);
    const bytes = await tablet.#welcomed(name);
    return { tablet, ms: performance.now() - started, bytes };
  }

  send(n: number, id: string): void {
    const op = change(n, id);
    this.#socket.send(
      JSON.stringify(this.#kind === 'hub' ? { say: 'taps', ops: [op] } : { id, tile: `horse${n % 20}`, op }),
    );
  }

  close(): void {
    this.#socket.terminate();
  }

  #welcomed(name: string): Promise<number> {
    return new Promise((done, fail) => {
      this.#socket.once('error', fail);
      this.#socket.on('open', () => {
        if (this.#kind !== 'hub') return;
        const hello = {
          say: 'hello',
          protocol: PROTOCOL,
          device: name,
          place: { role: 'coordinator' },
          since: null,
        };
        this.#socket.send(JSON.stringify(hello));
      });
      this.#socket.on('message', (data: Buffer) => {
        if (this.#kind === 'hub') this.#hearHub(data, done);
        else this.#hearRaw(data, done);
      });
    });
  }

  #hearHub(data: Buffer, welcomed: (bytes: number) => void): void {
    const message = JSON.parse(data.toString('utf8')) as FromHub;
    if (message.say === 'welcome') {
      this.board = message.board;
      welcomed(data.length);
    } else if (message.say === 'forecast') this.bytes.forecasts += data.length;
    else if (message.say === 'entries' && this.board) {
      this.bytes.changes += data.length;
      for (const entry of message.entries) {
        this.board = evolve(this.board, entry);
        this.applied(entry.id);
      }
    }
  }

  #hearRaw(data: Buffer, welcomed: (bytes: number) => void): void {
    const message = JSON.parse(data.toString('utf8')) as { id: string; tile: string } | { all: unknown[] };
    if ('all' in message) return welcomed(data.length);
    this.bytes.changes += data.length;
    this.tiles.set(message.tile, message);
    this.applied(message.id);
  }
}
