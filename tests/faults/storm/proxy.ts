/** A TCP proxy between one tablet and the hub that can be told to be a bad network. */
import { connect, createServer, type Server, type Socket } from 'node:net';

/**
 * `halfOpen`: both ends believe in the connection, nothing comes through. `upOnly`: the hub hears the tablet, its answers
 * are lost. `stalled`: as half-open, but nobody reads, so that what is sent piles up in the hub.
 */
export type Weather = 'fair' | 'halfOpen' | 'upOnly' | 'stalled';

type Pair = {
  readonly tablet: Socket;
  readonly hub: Socket;
  weather: Weather;
  readonly stops: (() => void)[];
};

export class Proxy {
  readonly port: number;
  readonly #server: Server;
  readonly #pairs = new Set<Pair>();
  /** Each piece is held back by this much, in ms. */
  #delayMs: () => number = () => 0;
  /** Bytes a new connection lets through before it is cut; null: all. */
  #cutAfter: number | null = null;

  private constructor(server: Server, port: number) {
    this.#server = server;
    this.port = port;
  }

  /** `target`: the hub's port, null while there is no hub. */
  static async open(target: () => number | null): Promise<Proxy> {
    const server = createServer();
    await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
    const address = server.address();
    if (!address || typeof address !== 'object') throw new Error('a listening server has an address');
    const proxy = new Proxy(server, address.port);
    server.on('connection', (tablet) => proxy.#join(tablet, target()));
    return proxy;
  }

  /** Ends every connection at once, as a switch that loses power. */
  cut(): void {
    for (const pair of this.#pairs) end(pair);
    this.#pairs.clear();
  }

  /** What the connections there are now become; later ones are fair. */
  turn(weather: Weather): void {
    for (const pair of this.#pairs) {
      pair.weather = weather;
      if (weather === 'stalled') for (const one of [pair.tablet, pair.hub]) one.pause();
    }
  }

  delay(delayMs: () => number): void {
    this.#delayMs = delayMs;
  }

  /** The next connection is cut after this many bytes towards the hub, most likely in the middle of a frame. */
  cutNextAfter(bytes: number): void {
    this.#cutAfter = bytes;
  }

  async close(): Promise<void> {
    this.cut();
    await new Promise((done) => this.#server.close(done));
  }

  #join(tablet: Socket, port: number | null): void {
    tablet.on('error', () => {});
    if (port === null) return void tablet.resetAndDestroy();
    const hub = connect(port, '127.0.0.1');
    hub.on('error', () => {});
    let left = this.#cutAfter ?? Infinity;
    this.#cutAfter = null;
    const delay = (): number => this.#delayMs();
    const stops = [
      carry(hub, delay, (piece) => {
        if (pair.weather === 'fair') tablet.write(piece);
      }),
      carry(tablet, delay, (piece) => {
        if (pair.weather !== 'fair' && pair.weather !== 'upOnly') return;
        hub.write(piece.subarray(0, left));
        left -= piece.length;
        if (left < 0) this.#end(pair);
      }),
    ];
    const pair: Pair = { tablet, hub, weather: 'fair', stops };
    this.#pairs.add(pair);
    const ended = (): void => {
      // Over a half-open connection not even the end comes through.
      if (pair.weather !== 'halfOpen' && pair.weather !== 'stalled') this.#end(pair);
    };
    tablet.on('close', ended);
    hub.on('close', ended);
  }

  #end(pair: Pair): void {
    end(pair);
    this.#pairs.delete(pair);
  }
}

/** Hands on what `from` sends, piece by piece in order, each after its delay in ms. The answer stops it. */
function carry(from: Socket, delayMs: () => number, pass: (piece: Buffer) => void): () => void {
  const queue: { piece: Buffer; due: number }[] = [];
  let timer: NodeJS.Timeout | null = null;
  const run = (): void => {
    timer = null;
    for (let head = queue[0]; head && head.due <= performance.now(); head = queue[0]) {
      queue.shift();
      pass(head.piece);
    }
    if (queue[0]) timer = setTimeout(run, queue[0].due - performance.now());
  };
  from.on('data', (piece) => {
    const due = Math.max(queue.at(-1)?.due ?? 0, performance.now() + delayMs());
    queue.push({ piece: Buffer.isBuffer(piece) ? piece : Buffer.from(piece), due });
    if (timer === null) run();
  });
  return () => {
    queue.length = 0;
    if (timer) clearTimeout(timer);
  };
}

function end({ tablet, hub, stops }: Pair): void {
  for (const stop of stops) stop();
  tablet.destroy();
  hub.destroy();
}
