/**
 * General-purpose sync libraries beside the hub. They live in a package of the bench's own (`peers/`), installed when the
 * bench first runs, so they are loaded at run time and the few calls made of them are typed here.
 */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { createServer, type IncomingMessage, type Server } from 'node:http';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import { WebSocket, WebSocketServer } from 'ws';
import type { Change, Joined, Tablet } from './change.ts';

export const PEERS = ['yjs', 'socketio', 'sharedb'] as const;
export type Peer = (typeof PEERS)[number];

export const PEER_NAMES: Record<Peer, string> = {
  yjs: 'Yjs 13.6 with y-websocket, in memory',
  socketio: 'Socket.IO 4.8 with connection state recovery, in memory',
  sharedb: 'ShareDB 7.0, in memory',
};

const FOLDER = fileURLToPath(new URL('peers', import.meta.url));
const load = createRequire(`${FOLDER}/`) as (name: string) => unknown;

/** Throws when they are not there and cannot be fetched. */
export function installPeers(): void {
  if (existsSync(`${FOLDER}/node_modules/yjs`)) return;
  const { status } = spawnSync('npm', ['ci', '--no-audit', '--no-fund', '--ignore-scripts'], {
    cwd: FOLDER,
    stdio: ['ignore', 'ignore', 'inherit'],
  });
  if (status !== 0) throw new Error(`npm ci failed in ${FOLDER}`);
}

/** What one tile holds in every system but the hub. */
type Tile = { readonly id: string; readonly op: unknown };
type Counted = { changes: number; forecasts: number };

/* Servers. Each keeps every tile and tells everybody; none waits for a disk. */

export async function servePeer(peer: Peer): Promise<number> {
  const server = createServer();
  switch (peer) {
    case 'yjs':
      serveYjs(server);
      break;
    case 'socketio':
      serveSocketIo(server);
      break;
    case 'sharedb':
      serveShareDb(server);
      break;
  }
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  const address = server.address();
  return typeof address === 'object' && address ? address.port : 0;
}

function serveYjs(server: Server): void {
  const { setupWSConnection } = load('@y/websocket-server/utils') as {
    setupWSConnection: (socket: WebSocket, request: IncomingMessage) => void;
  };
  new WebSocketServer({ server, perMessageDeflate: false }).on('connection', setupWSConnection);
}

type IoSocket = {
  on: (event: string, hear: (message: Tile & { tile: string }) => void) => void;
  emit: IoEmit;
};
type IoEmit = (event: string, message: unknown) => void;

function serveSocketIo(server: Server): void {
  const { Server: IoServer } = load('socket.io') as {
    Server: new (
      server: Server,
      options: object,
    ) => { on: (event: 'connection', meet: (socket: IoSocket) => void) => void; emit: IoEmit };
  };
  const io = new IoServer(server, {
    transports: ['websocket'],
    connectionStateRecovery: { maxDisconnectionDuration: 120_000 },
  });
  const tiles = new Map<string, Tile>();
  io.on('connection', (socket) => {
    socket.on('tap', (message) => {
      tiles.set(message.tile, message);
      io.emit('change', message);
    });
    socket.emit('all', [...tiles.values()]);
  });
}

function serveShareDb(server: Server): void {
  const ShareDb = load('sharedb') as new () => {
    listen: (stream: unknown) => void;
    connect: () => ShareConnection;
  };
  const Stream = load('@teamwork/websocket-json-stream') as new (socket: WebSocket) => unknown;
  const backend = new ShareDb();
  backend
    .connect()
    .get('board', 'board')
    .create({}, () => {});
  new WebSocketServer({ server, perMessageDeflate: false }).on('connection', (socket) =>
    backend.listen(new Stream(socket)),
  );
}

/* Tablets. */

export function joinPeer(peer: Peer, port: number, index: number): Promise<Joined> {
  switch (peer) {
    case 'yjs':
      return joinYjs(port, index);
    case 'socketio':
      return joinSocketIo(port, index);
    case 'sharedb':
      return joinShareDb(port, index);
  }
}

/** A tablet that is ready once `begin` calls back. */
async function joined(
  begin: (tablet: Tablet, ready: () => void) => { send: (change: Change) => void; close: () => void },
): Promise<Joined> {
  const started = performance.now();
  const ready = Promise.withResolvers<void>();
  const tablet: Tablet = {
    bytes: { changes: 0, forecasts: 0 },
    applied: () => {},
    send: (change) => live.send(change),
    close: () => live.close(),
  };
  const live = begin(tablet, ready.resolve);
  await ready.promise;
  return { tablet, ms: performance.now() - started, bytes: tablet.bytes.changes };
}

const lengthOf = (data: unknown): number =>
  typeof data === 'string' || Buffer.isBuffer(data)
    ? Buffer.byteLength(data)
    : (data as ArrayBuffer).byteLength;

/** A socket that counts what comes in. */
function counting(bytes: Counted): typeof WebSocket {
  return class extends WebSocket {
    constructor(url: string) {
      super(url, { perMessageDeflate: false });
      this.addEventListener('message', ({ data }) => {
        bytes.changes += lengthOf(data);
      });
    }
  } as unknown as typeof WebSocket;
}

type YMap = {
  get: (key: string) => Tile;
  set: (key: string, value: Tile) => void;
  observe: (hear: (event: { keysChanged: Set<string>; transaction: { local: boolean } }) => void) => void;
};
type YDoc = { getMap: (name: string) => YMap; destroy: () => void };
type YProvider = { on: (event: 'sync', hear: (isSynced: boolean) => void) => void; destroy: () => void };

function joinYjs(port: number, _index: number): Promise<Joined> {
  const { Doc } = load('yjs') as { Doc: new () => YDoc };
  const { WebsocketProvider } = load('y-websocket') as {
    WebsocketProvider: new (url: string, room: string, doc: YDoc, options: object) => YProvider;
  };
  return joined((tablet, ready) => {
    const doc = new Doc();
    const tiles = doc.getMap('tiles');
    tiles.observe(({ keysChanged, transaction }) => {
      if (transaction.local) return;
      for (const key of keysChanged) tablet.applied(tiles.get(key).id);
    });
    const provider = new WebsocketProvider(`ws://127.0.0.1:${port}`, 'board', doc, {
      WebSocketPolyfill: counting(tablet.bytes),
      // All tablets live in this process: they must not find each other past the server.
      disableBc: true,
    });
    provider.on('sync', (isSynced) => {
      if (isSynced) ready();
    });
    return {
      send: ({ id, tile, op }) => tiles.set(tile, { id, op }),
      close: () => {
        provider.destroy();
        doc.destroy();
      },
    };
  });
}

type IoClient = IoSocket & {
  disconnect: () => void;
  io: { engine: { transport: { ws: WebSocket } }; on: (event: 'open', hear: () => void) => void };
};

function joinSocketIo(port: number, index: number): Promise<Joined> {
  const { io } = load('socket.io-client') as { io: (url: string, options: object) => IoClient };
  return joined((tablet, ready) => {
    const own = `c${index}-`;
    const socket = io(`http://127.0.0.1:${port}`, { transports: ['websocket'], forceNew: true });
    socket.io.on('open', () => {
      socket.io.engine.transport.ws.addEventListener('message', ({ data }) => {
        tablet.bytes.changes += lengthOf(data);
      });
    });
    socket.on('all', ready);
    socket.on('change', ({ id }) => {
      if (!id.startsWith(own)) tablet.applied(id);
    });
    return { send: (change) => socket.emit('tap', change), close: () => socket.disconnect() };
  });
}

type ShareDoc = {
  subscribe: (done: (error?: Error) => void) => void;
  create: (data: object, done: (error?: Error) => void) => void;
  submitOp: (op: readonly object[]) => void;
  preventCompose: boolean;
};
type ShareConnection = {
  get: (collection: string, id: string) => ShareDoc;
  on: (event: 'receive', hear: (request: { data: ShareMessage }) => void) => void;
  close: () => void;
};
type ShareMessage = { a: string; op?: readonly { oi?: Tile }[] };

function joinShareDb(port: number, _index: number): Promise<Joined> {
  const { Connection } = load('sharedb/lib/client') as {
    Connection: new (socket: WebSocket) => ShareConnection;
  };
  return joined((tablet, ready) => {
    const Counting = counting(tablet.bytes);
    const connection = new Connection(new Counting(`ws://127.0.0.1:${port}`));
    const doc = connection.get('board', 'board');
    // Changes under way are otherwise put together into one, which is another work than the others'.
    doc.preventCompose = true;
    connection.on('receive', ({ data: { a, op } }) => {
      const id = a === 'op' ? op?.[0]?.oi?.id : undefined;
      // It is applied right after this event.
      if (id !== undefined) queueMicrotask(() => tablet.applied(id));
    });
    doc.subscribe((error) => {
      if (error) throw error;
      ready();
    });
    return {
      send: ({ id, tile, op }) => doc.submitOp([{ p: [tile], oi: { id, op } }]),
      close: () => connection.close(),
    };
  });
}
