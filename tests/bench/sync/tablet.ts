/** Tablets of the bench: each applies what comes as a tablet would, and says which of the others' changes it has applied. */
import { WebSocket } from 'ws';
import { evolve } from '#core/day/evolve.ts';
import type { Board } from '#core/day/board.ts';
import { unpacked } from '#core/wire/compact.ts';
import type { FromHub } from '#core/wire/messages.ts';
import { PROTOCOL } from '#core/wire/protocol.ts';
import { joinPeer, PEERS, type Peer } from './peers.ts';
import type { Change, Joined, Tablet } from './change.ts';

export const OURS = ['hub', 'raw', 'rawDisk'] as const;
export type Kind = (typeof OURS)[number] | Peer;

/** Bytes on the wire of the first frame after the handshake, its head left out (RFC 6455 §5.2): packed, where it is. */
function firstFrameBytes(socket: WebSocket): Promise<number> {
  return new Promise((done) => {
    socket.once('upgrade', ({ socket: tcp }) => {
      let head = Buffer.alloc(0);
      const read = (data: Buffer): void => {
        head = Buffer.concat([head, data]).subarray(0, 10);
        if (head.length < 10) return;
        tcp.off('data', read);
        const short = (head[1] ?? 0) & 0x7f;
        done(short < 126 ? short : short === 126 ? head.readUInt16BE(2) : Number(head.readBigUInt64BE(2)));
      };
      tcp.on('data', read);
    });
  });
}

/** The `index`-th tablet; its changes' ids begin with `c<index>-`. */
export function join(kind: Kind, port: number, index: number): Promise<Joined> {
  const peer = PEERS.find((one) => one === kind);
  if (peer) return joinPeer(peer, port, index);
  return kind === 'hub' ? joinHub(port, index) : joinRaw(port, index);
}

function joinHub(port: number, index: number): Promise<Joined> {
  return overSocket(port, index, (socket, tablet, ready, isOwn) => {
    let board: Board | null = null;
    const welcomeBytes = firstFrameBytes(socket);
    socket.on('open', () => {
      const place = { role: 'coordinator' };
      socket.send(
        JSON.stringify({ say: 'hello', protocol: PROTOCOL, device: `tablet${index}`, place, since: null }),
      );
    });
    socket.on('message', (data: Buffer) => {
      const message = unpacked(JSON.parse(data.toString('utf8'))) as FromHub;
      switch (message.say) {
        case 'welcome':
          board = message.board;
          void welcomeBytes.then(ready);
          break;
        case 'entries':
          tablet.bytes.changes += data.length;
          for (const entry of message.entries) {
            if (board) board = evolve(board, entry);
            if (!isOwn(entry.id)) tablet.applied(entry.id);
          }
          break;
        case 'answered':
          tablet.bytes.changes += data.length;
          break;
        case 'forecast':
        case 'suggested':
          tablet.bytes.forecasts += data.length;
          break;
        case 'pong':
        case 'considered':
        case 'standIns':
        case 'gateAnswer':
        case 'tabletsKnown':
        case 'status':
        case 'refused':
          break;
      }
    });
    return ({ op }) => socket.send(JSON.stringify({ say: 'taps', ops: [op] }));
  });
}

function joinRaw(port: number, index: number): Promise<Joined> {
  return overSocket(port, index, (socket, tablet, ready, isOwn) => {
    const tiles = new Map<string, unknown>();
    socket.on('message', (data: Buffer) => {
      const message = JSON.parse(data.toString('utf8')) as Change | { all: Change[] };
      if ('all' in message) return ready(data.length);
      tablet.bytes.changes += data.length;
      tiles.set(message.tile, message);
      if (!isOwn(message.id)) tablet.applied(message.id);
    });
    return (change) => socket.send(JSON.stringify(change));
  });
}

function overSocket(
  port: number,
  index: number,
  begin: (
    socket: WebSocket,
    tablet: Tablet,
    ready: (bytes: number) => void,
    isOwn: (id: string) => boolean,
  ) => Tablet['send'],
): Promise<Joined> {
  const started = performance.now();
  const socket = new WebSocket(`ws://127.0.0.1:${port}/live`);
  return new Promise((done, fail) => {
    socket.once('error', fail);
    const tablet: Tablet = {
      bytes: { changes: 0, forecasts: 0 },
      applied: () => {},
      send: (change) => send(change),
      close: () => socket.terminate(),
    };
    const ready = (bytes: number): void => done({ tablet, ms: performance.now() - started, bytes });
    const own = `c${index}-`;
    const send = begin(socket, tablet, ready, (id) => id.startsWith(own));
  });
}
