/** A tablet for tests: a real socket, what came in kept until it is asked for, and no sleeping. */
import { WebSocket } from 'ws';
import type { Op, OpFact } from '#core/day/ops.ts';
import type { TabletPlace } from '#core/day/places.ts';
import { unpacked } from '#core/wire/compact.ts';
import { parseFrame } from '#core/wire/frame.ts';
import { FromHub, type FromTablet } from '#core/wire/messages.ts';
import { PROTOCOL } from '#core/wire/protocol.ts';
import { PATIENCE_MS } from '../patience.ts';

export type Say = FromHub['say'];
export type Message<S extends Say> = Extract<FromHub, { say: S }>;

/** `cookie`: as a paired tablet has it. `from`: the address it comes from. */
export type How = { readonly cookie?: string; readonly from?: string };

export class Client {
  readonly device: string;
  /** Every frame that came, as it came. */
  readonly frames: string[] = [];
  /** WebSocket close code; null while open. */
  closeCode: number | null = null;
  readonly #socket: WebSocket;
  readonly #inbox: FromHub[] = [];
  #wake: (() => void)[] = [];

  private constructor(socket: WebSocket, device: string) {
    this.#socket = socket;
    this.device = device;
    socket.on('message', (data) => {
      const text = Buffer.isBuffer(data) ? data.toString('utf8') : '';
      this.frames.push(text);
      const message = parseFrame(FromHub, text, unpacked);
      if (!message) throw new Error(`not a message of the hub: ${text.slice(0, 300)}`);
      this.#inbox.push(message);
      this.#wakeAll();
    });
    socket.on('close', (code) => {
      this.closeCode = code;
      this.#wakeAll();
    });
    socket.on('error', () => {});
  }

  /** An open socket that has said nothing yet. */
  static async open(port: number, device = 'tablet-1', how: How = {}): Promise<Client> {
    const { cookie, from } = how;
    const socket = new WebSocket(`ws://127.0.0.1:${port}/live`, {
      perMessageDeflate: false,
      ...(cookie !== undefined && { headers: { Cookie: cookie } }),
      ...(from !== undefined && { localAddress: from }),
    });
    const client = new Client(socket, device);
    await new Promise<void>((done, fail) => socket.once('open', done).once('error', fail));
    return client;
  }

  /** A tablet that has been welcomed. */
  static async join(
    port: number,
    place: TabletPlace,
    device = 'tablet-1',
    since: { journal: string; seq: number } | null = null,
    how: How = {},
  ): Promise<{ client: Client; welcome: Message<'welcome'> }> {
    const client = await Client.open(port, device, how);
    client.say({ say: 'hello', protocol: PROTOCOL, device, place, since });
    return { client, welcome: await client.next('welcome') };
  }

  say(message: FromTablet): void {
    this.raw(JSON.stringify(message));
  }

  raw(frame: string | Buffer): void {
    this.#socket.send(frame);
  }

  tap(...ops: Op[]): void {
    this.say({ say: 'taps', ops });
  }

  /** One op and its answer. */
  async tapped(op: Op): Promise<Message<'answered'>['answers'][number]> {
    this.tap(op);
    for (;;) {
      const { answers } = await this.next('answered');
      const mine = answers.find((answer) => answer.id === op.id);
      if (mine) return mine;
    }
  }

  /** The oldest message of this kind not yet asked for; waits for one. Rejects when the socket closes first. */
  async next<S extends Say>(say: S): Promise<Message<S>> {
    for (;;) {
      const at = this.#inbox.findIndex((message) => message.say === say);
      if (at >= 0) return this.#inbox.splice(at, 1)[0] as Message<S>;
      if (this.closeCode !== null) throw new Error(`closed (${this.closeCode}) before any ${say}`);
      await this.#news(`a ${say}`);
    }
  }

  /** What of this kind has come and not been asked for. */
  taken<S extends Say>(say: S): Message<S>[] {
    return this.#inbox.filter((message): message is Message<S> => message.say === say);
  }

  /** The close code, once the hub has ended the connection. */
  async closed(): Promise<number> {
    while (this.closeCode === null) await this.#news('a close');
    return this.closeCode;
  }

  /** A ping and its answer: everything sent before it has been heard. */
  async settled(): Promise<Message<'pong'>> {
    this.say({ say: 'ping', t1: Math.round(performance.now()) });
    return this.next('pong');
  }

  /** Stops reading, as a tablet does whose radio is gone; `resume` reads on. */
  pause(): void {
    this.#socket.pause();
  }

  resume(): void {
    this.#socket.resume();
  }

  close(): void {
    this.#socket.terminate();
  }

  #news(what: string): Promise<void> {
    return new Promise((done, fail) => {
      const late = setTimeout(() => fail(new Error(`waited ${PATIENCE_MS} ms for ${what}`)), PATIENCE_MS);
      this.#wake.push(() => {
        clearTimeout(late);
        done();
      });
    });
  }

  #wakeAll(): void {
    const wake = this.#wake;
    this.#wake = [];
    for (const one of wake) one();
  }
}

/** An op of this device, tapped at `tappedAt` (ms). */
export function op(id: string, fact: OpFact, by: string | null = null, tappedAt = 1_770_000_000_000): Op {
  return { id, device: 'tablet-1', by, tappedAt, fact };
}
