/** What the hub answers over HTTP besides its pages: each address with who may ask for it. */
import type { IncomingMessage, ServerResponse } from 'node:http';
import { isCoordinator, type Gate, type Who } from './gate.ts';

export type Endpoint = {
  /** HEAD is answered as GET, without the body. */
  readonly method: 'GET' | 'POST' | 'PUT' | 'DELETE';
  /** `/health`, or with a slash at its end everything below it. */
  readonly path: string;
  readonly may: 'anybody' | 'tablet' | 'coordinator';
  /** May reject; then the connection ends. */
  readonly answer: (request: IncomingMessage, response: ServerResponse, who: Who) => void | Promise<void>;
};

type Found = { readonly endpoint: Endpoint } | { readonly allow: string } | null;

/** The endpoint for this request; `allow`: the methods this address has; null: nothing of this list. */
export function endpointFor(endpoints: readonly Endpoint[], method: string, path: string): Found {
  const here = endpoints.filter((one) =>
    one.path.endsWith('/') ? path.startsWith(one.path) : path === one.path,
  );
  if (here.length === 0) return null;
  const endpoint = here.find((one) => one.method === (method === 'HEAD' ? 'GET' : method));
  if (endpoint) return { endpoint };
  const methods = here.flatMap((one) => (one.method === 'GET' ? ['GET', 'HEAD'] : [one.method]));
  return { allow: methods.join(', ') };
}

/** Answers, or says 401 to whom the hub does not know and 403 to whom may not. */
export async function answerAt(
  endpoint: Endpoint,
  gate: Gate,
  request: IncomingMessage,
  response: ServerResponse,
): Promise<void> {
  const who = gate.who(request);
  const no = objection(endpoint, who);
  if (no !== null) response.writeHead(no, { 'Cache-Control': 'no-store' }).end();
  else await endpoint.answer(request, response, who);
}

function objection({ may }: Endpoint, who: Who): 401 | 403 | null {
  switch (may) {
    case 'anybody':
      return null;
    case 'tablet':
      return who.is === 'tablet' ? null : 401;
    case 'coordinator':
      if (who.is === 'nobody') return 401;
      return isCoordinator(who) ? null : 403;
  }
}
