/**
 * `GET /metrics`: figures for a monitoring program, in the text form of Prometheus. Only this computer may ask, unless the hub
 * was started with --metrics. Nothing personal is in them.
 */
import type { Registry } from 'prom-client';
import type { Endpoint } from './endpoints.ts';
import type { Figures } from './figures.ts';

const LOOPBACKS = ['127.0.0.1', '::1', '::ffff:127.0.0.1'];

/** `forAll`: other computers may ask, too. */
export function metricsEndpoint(read: () => Figures, forAll: boolean): Endpoint {
  let registry: Promise<Registry> | null = null;
  return {
    method: 'GET',
    path: '/metrics',
    may: 'anybody',
    answer: async (request, response) => {
      if (!forAll && !LOOPBACKS.includes(request.socket.remoteAddress ?? '')) {
        response.writeHead(404).end();
        return;
      }
      // Loaded when somebody asks: most barns never do, and it takes as much memory as the whole board.
      registry ??= import('./figures.ts').then(({ registryOf }) => registryOf(read));
      const { contentType } = await registry;
      const text = await (await registry).metrics();
      response.writeHead(200, { 'Content-Type': contentType, 'Cache-Control': 'no-store' });
      response.end(request.method === 'HEAD' ? undefined : text);
    },
  };
}
