/**
 * Plain and encrypted connections on one port, told apart by their first byte: a TLS record of a handshake begins with 22
 * (RFC 8446, 5.1), no HTTP request does. So there is one address to remember, and `http://` leads on to `https://`.
 */
import { createServer, type Server, type Socket } from 'node:net';

const TLS_HANDSHAKE = 22;
/** Who says nothing for so long is no browser. */
const SILENT_MS = 10_000;

type Behind = { emit(event: 'connection', socket: Socket): boolean };

/** A server that hands each connection on. Listen on it, and close it, instead of on those behind. */
export function onOnePort(plain: Behind, encrypted: Behind): Server {
  return createServer((socket) => {
    const drop = (): void => void socket.destroy();
    socket.setTimeout(SILENT_MS, drop);
    socket.on('error', drop);
    socket.once('readable', () => {
      const first = socket.read(1) as Buffer | null;
      if (first === null) return drop();
      socket.off('error', drop);
      socket.setTimeout(0);
      socket.off('timeout', drop);
      socket.unshift(first);
      (first[0] === TLS_HANDSHAKE ? encrypted : plain).emit('connection', socket);
    });
  });
}
