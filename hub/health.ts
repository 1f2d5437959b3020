/** `GET /health`: how the hub is, for whoever looks after it at the hub itself; to others only whether it is well. */
import type { Endpoint } from './endpoints.ts';
import { isLoopback } from './gate/limits.ts';

/** `health` holds nothing personal. */
export function healthEndpoint(health: () => { readonly status: string }): Endpoint {
  return {
    method: 'GET',
    path: '/health',
    may: 'anybody',
    answer: (request, response) => {
      response.writeHead(200, { 'Content-Type': 'application/json', 'Cache-Control': 'no-store' });
      const all = health();
      const told = isLoopback(request.socket.remoteAddress) ? all : { status: all.status };
      response.end(request.method === 'HEAD' ? undefined : JSON.stringify(told));
    },
  };
}
