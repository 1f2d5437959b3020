/** `GET /health`: how the hub is, for whoever looks after it. */
import type { Endpoint } from './endpoints.ts';

/** `health` holds nothing personal. */
export function healthEndpoint(health: () => unknown): Endpoint {
  return {
    method: 'GET',
    path: '/health',
    may: 'anybody',
    answer: (request, response) => {
      response.writeHead(200, { 'Content-Type': 'application/json', 'Cache-Control': 'no-store' });
      response.end(request.method === 'HEAD' ? undefined : JSON.stringify(health()));
    },
  };
}
