/**
 * One server in a process of its own: `server.ts hub|raw|rawDisk|<peer> FOLDER`. Tells its port by process message, and its
 * resident memory whenever asked. `raw` and `rawDisk` are the least that can be done with the same socket library: a
 * broadcast as it came, and one after an append and an fdatasync each.
 */
import { open } from 'node:fs/promises';
import { join } from 'node:path';
import { WebSocketServer, type WebSocket } from 'ws';
import { PEERS, servePeer } from './peers.ts';

const [kind, folder = '.'] = process.argv.slice(2);

process.on('message', () => process.send?.({ rssMb: process.memoryUsage().rss / 1e6 }));
process.on('disconnect', () => process.exit(0));

const peer = PEERS.find((one) => one === kind);
if (peer) {
  process.send?.({ port: await servePeer(peer) });
} else if (kind === 'hub') {
  // Here, so that the others' memory does not hold the hub's code.
  const { openHub } = await import('../../../hub/main.ts');
  const { OPEN_LIMITS } = await import('../../../hub/gate/limits.ts');
  const { MORNING, scene } = await import('./scene.ts');
  const now = Date.now();
  const hub = await openHub({
    open: true,
    port: 0,
    host: '127.0.0.1',
    folder: join(folder, 'barn'),
    first: scene(),
    barnClock: { hub: now, barn: MORNING, rate: 1 },
    // Keeps the scene's own day open.
    demo: true,
    // One tablet here sends what no hand could tap.
    limits: { ...OPEN_LIMITS, frames: Infinity },
  });
  process.send?.({ port: hub.port });
} else {
  const append = kind === 'rawDisk' ? await appender(join(folder, 'raw.log')) : null;
  const tiles = new Map<string, string>();
  const server = new WebSocketServer({ port: 0, host: '127.0.0.1', perMessageDeflate: false });
  const tell = (text: string): void => {
    tiles.set((JSON.parse(text) as { tile: string }).tile, text);
    for (const client of server.clients) client.send(text);
  };
  server.on('connection', (socket: WebSocket) => {
    socket.send(`{"all":[${[...tiles.values()].join(',')}]}`);
    socket.on('message', (data: Buffer) => {
      const text = data.toString('utf8');
      if (append) append(text, () => tell(text));
      else tell(text);
    });
  });
  server.on('listening', () => {
    const address = server.address();
    process.send?.({ port: typeof address === 'object' && address ? address.port : 0 });
  });
}

/** One append and one fdatasync for each message, in order. */
async function appender(path: string): Promise<(text: string, done: () => void) => void> {
  const file = await open(path, 'a');
  let last = Promise.resolve();
  return (text, done) => {
    last = last.then(async () => {
      await file.appendFile(`${text}\n`);
      await file.datasync();
      done();
    });
  };
}
