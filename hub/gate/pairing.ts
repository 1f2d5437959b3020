/**
 * `POST /gate/pair`: a pairing code for a token. At the hub itself a browser needs no code while the barn has no tablet yet:
 * whoever sits there could read the code off the console.
 */
import type { IncomingMessage, ServerResponse } from 'node:http';
import * as z from 'zod/mini';
import { PairingCode } from '#core/wire/gate.ts';
import type { Endpoint } from '../endpoints.ts';
import { isWhole } from './codes.ts';
import type { Keeper } from './keeper.ts';
import { addressKey, isLoopback, type CodeRates } from './limits.ts';
import { readText } from '../readBody.ts';
import { cookieFor } from './token.ts';

/** `code` null: from a browser at the hub itself. */
const Request = z.object({ code: z.nullable(PairingCode) });

/** A code and the words around it. */
const MOST_BYTES = 200;

const MS_A_SECOND = 1000;

export type PairingParts = {
  readonly keeper: Keeper;
  readonly rates: CodeRates;
  readonly port: () => number;
};

export function pairingEndpoint(parts: PairingParts): Endpoint {
  return {
    method: 'POST',
    path: '/gate/pair',
    may: 'anybody',
    answer: (request, response) => pair(parts, request, response),
  };
}

async function pair(
  { keeper, rates, port }: PairingParts,
  request: IncomingMessage,
  response: ServerResponse,
): Promise<void> {
  const text = await readText(request, MOST_BYTES);
  if (text === null) return say(response, 413);
  const asked = Request.safeParse(parse(text));
  // Only a page of this hub can send this type without the browser asking first (Fetch standard, CORS-safelisted types).
  if (!asked.success || request.headers['content-type'] !== 'application/json') return say(response, 400);
  const address = request.socket.remoteAddress;
  const key = addressKey(address);
  const { code } = asked.data;
  if (code === null) {
    const isFirst = keeper.tablets.length === 0 && isLoopback(address) && isLoopbackName(request);
    if (!isFirst) return say(response, 403);
  }
  // One address over its own limit takes nothing from the others; and whoever types guesses keeps out none who bring the whole.
  const all = code !== null && isWhole(code) ? null : rates.all;
  const waitMs = (await rates.address.take(key)) || ((await all?.take('all')) ?? 0);
  if (waitMs > 0) return say(response, 429, { 'Retry-After': String(Math.ceil(waitMs / MS_A_SECOND)) });
  const taken = code === null ? { atHub: true } : keeper.codes.take(code);
  if (!taken) {
    keeper.audit.add({ what: 'codeWrong', from: key });
    return say(response, 403);
  }
  // A right code is no guess.
  await Promise.all([rates.address.give(key), all?.give('all')]);
  try {
    const { token, device } = await keeper.pair(keeper.tokenIn(request), taken.atHub);
    keeper.audit.add({ what: 'paired', tablet: device, from: key });
    say(response, 204, { 'Set-Cookie': cookieFor(token, port(), 'encrypted' in request.socket) });
  } catch {
    say(response, 503);
  }
}

/** Through a name of the network this computer may stand for others, as behind another server on it. */
function isLoopbackName({ headers }: IncomingMessage): boolean {
  const name = URL.parse(`http://${headers.host ?? ''}`)?.hostname ?? '';
  return name === 'localhost' || name === '[::1]' || name.startsWith('127.');
}

function parse(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

function say(response: ServerResponse, status: number, more: Record<string, string> = {}): void {
  if (status === 413) response.setHeader('Connection', 'close');
  response.writeHead(status, { 'Cache-Control': 'no-store', ...more }).end();
}
