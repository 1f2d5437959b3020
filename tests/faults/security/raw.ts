/** Requests byte by byte, as no well-behaved client would send them. */
import { connect, type Socket } from 'node:net';

export type Reply = {
  /** Status of each response that came, in order. */
  readonly statuses: readonly number[];
  readonly text: string;
};

/** Sends `bytes` and gathers what comes until the hub ends the connection, or `patienceMs` have passed. */
export function sendRaw(port: number, bytes: string | Buffer, patienceMs = 1000): Promise<Reply> {
  return new Promise((done) => {
    const socket = connect({ port, host: '127.0.0.1', allowHalfOpen: true });
    const parts: Buffer[] = [];
    const end = (): void => {
      clearTimeout(late);
      socket.destroy();
      const text = Buffer.concat(parts).toString('latin1');
      const statuses = [...text.matchAll(/^HTTP\/1\.\d (\d{3})/gm)].map(([, status]) => Number(status));
      done({ statuses, text });
    };
    const late = setTimeout(end, patienceMs);
    socket.on('data', (part) => parts.push(part));
    socket.once('end', end).once('close', end);
    socket.on('error', () => {});
    socket.write(bytes);
  });
}

/** A head of these lines. */
export function head(...lines: readonly string[]): string {
  return `${lines.join('\r\n')}\r\n\r\n`;
}

/** A connection that is only opened. `from`: the address it comes from. */
export function open(port: number, from = '127.0.0.1'): Promise<Socket> {
  return new Promise((done, fail) => {
    const socket = connect({ port, host: '127.0.0.1', localAddress: from });
    socket.once('connect', () => done(socket)).once('error', fail);
  });
}
