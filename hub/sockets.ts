/** WebSockets for the room: frames in and out, a heartbeat, and an end for connections that do not keep up. */
import type { IncomingMessage } from 'node:http';
import type { Duplex } from 'node:stream';
import { WebSocketServer, type PerMessageDeflateOptions, type WebSocket } from 'ws';
import { TABLET_FRAME_BYTES } from '#core/wire/messages.ts';
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
  upgrade(request: IncomingMessage, socket: Duplex, head: Buffer): void;
  stop(): Promise<void>;
};

/** Opens sockets into `room`. */
export function openSockets(room: Room, { pingEveryMs, silenceMs }: Heartbeat = HEARTBEAT): Sockets {
  const server = new WebSocketServer({
    noServer: true,
    maxPayload: TABLET_FRAME_BYTES,
    perMessageDeflate: DEFLATE,
  });
  const heardAt = new Map<WebSocket, number>();

  const heartbeat = setInterval(() => {
    for (const [socket, at] of heardAt) {
      if (performance.now() - at > silenceMs) socket.terminate();
      else socket.ping();
    }
  }, pingEveryMs);

  const meet = (socket: WebSocket): void => {
    const alive = (): void => void heardAt.set(socket, performance.now());
    alive();
    const session = room.join(linkTo(socket));
    socket.on('pong', alive);
    socket.on('message', (data, isBinary) => {
      alive();
      if (isBinary) room.refuse(session, 'malformed');
      // ws gives text as one Buffer unless told otherwise.
      else if (Buffer.isBuffer(data)) room.hear(session, data.toString('utf8'));
    });
    socket.on('close', () => {
      heardAt.delete(socket);
      room.leave(session);
    });
    // A frame too large or not UTF-8: ws closes the connection itself, with the code the standard has for it.
    socket.on('error', () => {});
  };

  return {
    upgrade: (request, socket, head) => {
      const no = objection(request);
      if (no) socket.end(`HTTP/1.1 ${no}\r\nConnection: close\r\nContent-Length: 0\r\n\r\n`);
      else server.handleUpgrade(request, socket, head, meet);
    },
    stop: async () => {
      clearInterval(heartbeat);
      const gone = [...heardAt.keys()].map((socket) => goodbye(socket));
      await Promise.all(gone);
    },
  };
}

/** Why this request cannot become a WebSocket. Another site's page must not reach a hub through its visitor's browser. */
function objection({ url = '', headers }: IncomingMessage): string | null {
  if (url.split('?')[0] !== LIVE_PATH) return '404 Not Found';
  const { origin, host } = headers;
  if (origin === undefined) return null;
  return URL.parse(origin)?.host === host ? null : '403 Forbidden';
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
