/** WebSockets for the room: frames in and out, a heartbeat, and an end for connections that do not keep up. */
import type { IncomingMessage } from 'node:http';
import type { Duplex } from 'node:stream';
import { WebSocketServer, type PerMessageDeflateOptions, type WebSocket } from 'ws';
import { TABLET_FRAME_BYTES } from '#core/wire/protocol.ts';
import { turnAway } from './gate/headers.ts';
import { addressKey, Rate, type Limits } from './gate/limits.ts';
import { Pool } from './gate/pool.ts';
import type { Room } from './room.ts';
import { CLOSE, type Link } from './session.ts';

const LIVE_PATH = '/live';

/**
 * A tablet whose radio is gone is noticed within both of these together, 10 s. No sign of life for so long ends the
 * connection; the tablet comes back by itself and catches up.
 */
export const HEARTBEAT: Heartbeat = { pingEveryMs: 3000, silenceMs: 7000 };

export type Heartbeat = { readonly pingEveryMs: number; readonly silenceMs: number };

/** A tablet with this much unread beyond one message is cut off: it comes back and gets what it missed in one piece. */
export const UNREAD_BYTES = 1024 * 1024;

/** What is said to be long and is not goes as it is. */
const PACK_FROM_BYTES = 4 * 1024;

/**
 * Whole boards are packed, changes and forecasts are not: they go to everybody, and would be packed for each. Windows are small,
 * so that a connection keeps 8 kB and not 256 (zlib.h: 2^(bits + 2) + 2^(level + 9)).
 */
const DEFLATE: PerMessageDeflateOptions = {
  threshold: PACK_FROM_BYTES,
  serverNoContextTakeover: true,
  clientNoContextTakeover: true,
  serverMaxWindowBits: 10,
  clientMaxWindowBits: 10,
  zlibDeflateOptions: { memLevel: 3, level: 6, chunkSize: 4 * 1024 },
  zlibInflateOptions: { chunkSize: 1024 },
};

/** How long a tablet is given to say goodbye when the hub goes down. */
const GOODBYE_MS = 500;

export type Sockets = {
  /** Takes over a connection that asked to become a WebSocket. */
  upgrade(request: IncomingMessage, socket: Duplex, head: Buffer): Promise<void>;
  stop(): Promise<void>;
};

export type SocketsParts = {
  readonly room: Room;
  readonly limits: Limits;
  /** What a connection shows for itself. */
  readonly tokenIn: (request: IncomingMessage) => string | null;
  /** Whether it is one of the hub's own tablets'. */
  readonly isKnown: (request: IncomingMessage) => boolean;
  /** A `Set-Cookie` line for whoever showed this token; null: none. */
  readonly renew: (token: string | null, request: IncomingMessage) => string | null;
  readonly heartbeat?: Heartbeat;
};

/** Opens sockets into a room. */
export function openSockets({ room, limits, tokenIn, isKnown, renew, heartbeat }: SocketsParts): Sockets {
  const { pingEveryMs, silenceMs } = heartbeat ?? HEARTBEAT;
  const server = new WebSocketServer({
    noServer: true,
    maxPayload: TABLET_FRAME_BYTES,
    perMessageDeflate: DEFLATE,
  });
  const heardAt = new Map<WebSocket, number>();
  const queue = new Queue(limits);
  const connects = new Rate(limits.connectsAMinute, 60);
  server.on('headers', (lines, request) => {
    const cookie = renew(tokenIn(request), request);
    if (cookie !== null) lines.push(`Set-Cookie: ${cookie}`);
  });

  const beat = setInterval(() => {
    for (const [socket, at] of heardAt) {
      if (performance.now() - at > silenceMs) socket.terminate();
      else socket.ping();
    }
  }, pingEveryMs);

  const meet = (socket: WebSocket, request: IncomingMessage): void => {
    const alive = (): void => void heardAt.set(socket, performance.now());
    alive();
    const session = room.join(linkTo(socket), tokenIn(request));
    const address = addressKey(request.socket.remoteAddress);
    const admitted = queue.wait(socket, isKnown(request) ? null : address);
    const pace = new Pace(limits);
    let isOver = false;
    socket.on('pong', alive);
    socket.on('message', (data, isBinary) => {
      alive();
      if (!pace.takes(performance.now())) {
        if (!isOver) room.tooMuch(session);
        isOver = true;
        return;
      }
      if (isBinary) room.refuse(session, 'malformed');
      // ws gives text as one Buffer unless told otherwise.
      else if (Buffer.isBuffer(data)) room.hear(session, data.toString('utf8'));
      if (session.now.state === 'live') admitted();
    });
    socket.on('close', () => {
      heardAt.delete(socket);
      admitted();
      room.leave(session);
    });
    // A frame too large or not UTF-8: ws closes the connection itself, with the code the standard has for it.
    socket.on('error', () => {});
  };

  return {
    upgrade: async (request, socket, head) => {
      const no = await refusal(request, connects, isKnown(request));
      if (no) turnAway(socket, no);
      else server.handleUpgrade(request, socket, head, meet);
    },
    stop: async () => {
      clearInterval(beat);
      const gone = [...heardAt.keys()].map((socket) => goodbye(socket));
      await Promise.all(gone);
    },
  };
}

async function refusal(
  { url = '', socket }: IncomingMessage,
  connects: Rate,
  isKnown: boolean,
): Promise<404 | 429 | null> {
  if (url.split('?')[0] !== LIVE_PATH) return 404;
  // A tablet that shares its address with somebody who tries without end is none of those.
  if (isKnown) return null;
  return (await connects.take(addressKey(socket.remoteAddress))) > 0 ? 429 : null;
}

/** Connections that have not said hello: a tablet says it at once. */
class Queue {
  readonly #helloMs: number;
  readonly #waiting: Pool<WebSocket>;

  constructor({ waiting, waitingPerAddress, helloMs }: Limits) {
    this.#helloMs = helloMs;
    this.#waiting = new Pool(waiting, waitingPerAddress, (socket) => socket.terminate());
  }

  /** Ends it when it waits too long; the answer says that it need not any more. `address` null: of a tablet on the list. */
  wait(socket: WebSocket, address: string | null): () => void {
    if (address !== null) this.#waiting.add(socket, address);
    const late = setTimeout(() => socket.terminate(), this.#helloMs);
    return () => {
      clearTimeout(late);
      if (address !== null) this.#waiting.remove(socket, address);
    };
  }
}

/** Frames of one connection: so many in so long. */
class Pace {
  readonly #limits: Limits;
  #from = -Infinity;
  #frames = 0;

  constructor(limits: Limits) {
    this.#limits = limits;
  }

  /** `now` in ms, of any clock. */
  takes(now: number): boolean {
    if (now - this.#from > this.#limits.framesMs) {
      this.#from = now;
      this.#frames = 0;
    }
    this.#frames += 1;
    return this.#frames <= this.#limits.frames;
  }
}

/** What a link needs of a socket. */
type Wire = Pick<WebSocket, 'readyState' | 'OPEN' | 'bufferedAmount' | 'send' | 'terminate' | 'close'>;

/** The room's way to one socket; it ends the connection of a tablet that does not keep up. */
export function linkTo(socket: Wire): Link {
  // One long message, as a whole board is, must not by itself count as not keeping up.
  let longest = 0;
  return {
    send: (text, isLong = false) => {
      if (socket.readyState !== socket.OPEN) return;
      if (socket.bufferedAmount > longest + UNREAD_BYTES) return socket.terminate();
      longest = Math.max(longest, Buffer.byteLength(text));
      socket.send(text, { compress: isLong });
    },
    close: (code, reason) => socket.close(code, reason),
  };
}

function goodbye(socket: WebSocket): Promise<void> {
  return new Promise((done) => {
    const late = setTimeout(() => socket.terminate(), GOODBYE_MS);
    socket.once('close', () => {
      clearTimeout(late);
      done();
    });
    socket.close(CLOSE.goingAway, 'the hub is going down');
  });
}
