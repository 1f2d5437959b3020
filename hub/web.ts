/** The hub's HTTP side: health, the kiosk's pages, and the way to the sockets. */
import {
  createServer,
  type IncomingMessage,
  type RequestListener,
  type Server,
  type ServerOptions,
  type ServerResponse,
} from 'node:http';
import { createServer as createTlsServer } from 'node:https';
import type { Server as NetServer, Socket } from 'node:net';
import type { Duplex } from 'node:stream';
import { answerAt, endpointFor, type Endpoint } from './endpoints.ts';
import type { Gate } from './gate.ts';
import type { Handler } from './kioskFiles.ts';
import type { Sockets } from './sockets.ts';
import { secure, turnAway } from './gate/headers.ts';
import { objection } from './gate/hosts.ts';
import type { Crowd } from './gate/limits.ts';
import { codeOf, StartError } from './startError.ts';
import type { Certified } from './tls/authority.ts';
import type { Shown } from './tls/certificates.ts';
import { onOnePort } from './tls/onOnePort.ts';
import { trustHandler } from './tls/trustPage.ts';

type Behind = {
  readonly gate: Gate;
  /** Whether the hub may be called so. */
  readonly isOurs: (host: string) => boolean;
  readonly endpoints: readonly Endpoint[];
  readonly pages: Handler;
  readonly sockets: Sockets;
};

export type Web = {
  readonly port: number;
  /** What came in before this call has waited for it. */
  serve(behind: Behind): void;
  /** Shows another certificate from now on; nothing without TLS. */
  show(certificate: Certified): void;
  stop(): Promise<void>;
};

/**
 * A request that does not get to its end is nobody's: its head must be there within 10 s, all of it within a minute, which
 * is long enough for a photo over a weak radio. No address or cookie of a board needs more than a few hundred bytes.
 */
const PATIENCE: ServerOptions = {
  headersTimeout: 10_000,
  requestTimeout: 60_000,
  keepAliveTimeout: 5000,
  connectionsCheckingInterval: 2000,
  maxHeaderSize: 8192,
  // Looked at with the rest of the head, so that the answer says what all answers say.
  requireHostHeader: false,
};

/** A connection over which nothing goes for so long is ended: somebody may ask for a page and never read it. */
const SILENCE_MS = 60_000;

/**
 * Takes the port, before anything is read or written. Throws StartError when it is not to be had. Port 0: any. With `shown`, a
 * certificate, the board is there by https alone, and plain http on the same port leads to it.
 */
export async function takePort(
  port: number,
  host: string,
  crowd: Crowd,
  shown: (() => Shown) | null,
): Promise<Web> {
  const ready = Promise.withResolvers<Behind | null>();
  const listener: RequestListener = (request, response) => {
    ready.promise
      .then((behind) => {
        if (!behind) return void response.destroy();
        if (behind.gate.who(request).is === 'tablet') crowd.known(request.socket);
        return answer(behind, request, response);
      })
      // One request that fails must not take the board down.
      .catch(() => response.destroy());
  };
  const encrypted = shown && createTlsServer({ ...PATIENCE, ...pair(shown()), ...TLS }, listener);
  const leading = trustHandler(shown, () => taken);
  const plain = createServer(PATIENCE, encrypted ? leading : listener);
  const outer: NetServer = encrypted ? onOnePort(plain, encrypted) : plain;
  for (const server of encrypted ? [plain, encrypted] : [plain]) guard(server);
  const open = new Set<Socket>();
  outer.on('connection', (socket) => {
    open.add(socket);
    socket.once('close', () => open.delete(socket));
    crowd.let(socket);
  });
  (encrypted ?? plain).on('upgrade', (request, socket, head) => {
    // A connection that breaks off halfway is not the hub's concern.
    socket.on('error', () => {});
    ready.promise
      .then((behind) => {
        if (!behind) return void socket.destroy();
        if (behind.gate.who(request).is === 'tablet') crowd.known(request.socket);
        return upgrade(behind, request, socket, head);
      })
      .catch(() => socket.destroy());
  });
  await listen(outer, port, host);
  const address = outer.address();
  const taken = address && typeof address === 'object' ? address.port : port;
  return {
    port: taken,
    serve: ready.resolve,
    show: (certificate) => encrypted?.setSecureContext({ ...pair(certificate), ...TLS }),
    stop: async () => {
      ready.resolve(null);
      const closed = new Promise((done) => outer.close(done));
      plain.closeAllConnections();
      encrypted?.closeAllConnections();
      // Among them those that have not come so far as to be either's.
      for (const socket of open) socket.destroy();
      await closed;
    },
  };
}

/** Ends what is silent, and answers what is no request as everything is answered. */
function guard(server: Server): void {
  const begun = new WeakSet<Duplex>();
  server.setTimeout(SILENCE_MS);
  server.on('request', ({ socket }) => begun.add(socket));
  // Whatever else somebody expects is no reason for another answer.
  server.on('checkExpectation', (request, response) => server.emit('request', request, response));
  server.on('clientError', (error, socket) => {
    // In the middle of an answer another one would be read as part of it.
    const status = begun.has(socket) ? null : statusOf(codeOf(error));
    if (status === null) socket.destroy();
    else turnAway(socket, status);
  });
}

/** For what is no request; null: it did not get so far as to be one, as a handshake that does not end. */
function statusOf(code: string): 400 | 408 | 431 | null {
  switch (code) {
    case 'HPE_HEADER_OVERFLOW':
      return 431;
    case 'ERR_HTTP_REQUEST_TIMEOUT':
      return 408;
    default:
      return code.startsWith('HPE_') ? 400 : null;
  }
}

/** RFC 8996: nothing older than 1.2 is to be used. A handshake is given as long as a request's head. */
const TLS = { minVersion: 'TLSv1.2', handshakeTimeout: 10_000 } as const;

function pair({ cert, key }: Certified): Certified {
  return { cert, key };
}

function listen(server: NetServer, port: number, host: string): Promise<void> {
  return new Promise((done, fail) => {
    server.once('error', (error) => fail(new StartError(whyNot(error, port, host), { cause: error })));
    server.listen(port, host, () => {
      server.removeAllListeners('error');
      done();
    });
  });
}

function whyNot(error: unknown, port: number, host: string): string {
  switch (codeOf(error)) {
    case 'EADDRINUSE':
      return `Port ${port} is already in use: perhaps the board is running already. Stop that program, or choose another port with --port.`;
    case 'EACCES':
      return `This computer does not let ordinary programs use port ${port}. Choose one above 1023 with --port.`;
    case 'EADDRNOTAVAIL':
    case 'ENOTFOUND':
      return `This computer has no address ${host}. Choose another with --host.`;
    default:
      return `Port ${port} on ${host} cannot be opened (${codeOf(error) || String(error)}).`;
  }
}

async function upgrade(
  behind: Behind,
  request: IncomingMessage,
  socket: Duplex,
  head: Buffer,
): Promise<void> {
  const no = objection(request, behind.isOurs);
  if (no) turnAway(socket, no);
  else await behind.sockets.upgrade(request, socket, head);
}

function answer(behind: Behind, request: IncomingMessage, response: ServerResponse): void | Promise<void> {
  const { method = '', url = '', headers } = request;
  const no = objection(request, behind.isOurs);
  secure(response, no ? '' : (headers.host ?? ''));
  if (no) return void response.writeHead(no, { Connection: 'close', 'Cache-Control': 'no-store' }).end();
  const found = endpointFor(behind.endpoints, method, url.split('?')[0] ?? '');
  if (found && 'endpoint' in found) return answerAt(found.endpoint, behind.gate, request, response);
  if (found || (method !== 'GET' && method !== 'HEAD')) {
    response.writeHead(405, { Allow: found?.allow ?? 'GET, HEAD' }).end();
  } else {
    behind.pages(request, response);
  }
}
