/** The hub whose memory is measured: `server.ts FOLDER`. Tells its port, and its memory whenever asked. */
import { openHub } from '../../../hub/main.ts';
import { MORNING, scene } from '../sync/scene.ts';
import type { Memory } from './main.ts';

const [folder = ''] = process.argv.slice(2);
const now = Date.now();
const hub = await openHub({
  open: true,
  port: 0,
  host: '127.0.0.1',
  folder,
  first: scene(),
  barnClock: { hub: now, barn: MORNING, rate: 1 },
  // Keeps the scene's own day open.
  demo: true,
});
process.on('message', () => {
  const { rss, heapUsed, external } = process.memoryUsage();
  process.send?.({ rssMb: rss / 1e6, heapMb: heapUsed / 1e6, externalMb: external / 1e6 } satisfies Memory);
});
process.on('disconnect', () => process.exit(0));
process.send?.({ port: hub.port });
