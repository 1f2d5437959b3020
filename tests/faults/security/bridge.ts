/** A way to a hub with TLS for tools that speak plainly: what they send reaches the hub encrypted, byte for byte. */
import { connect as connectTls } from 'node:tls';
import { createServer, type AddressInfo, type Socket } from 'node:net';

export type Bridge = { readonly port: number; close(): void };

export async function bridgeTo(port: number, authority: string): Promise<Bridge> {
  const open = new Set<Socket>();
  const server = createServer({ allowHalfOpen: true }, (near) => {
    const far = connectTls({ port, host: '127.0.0.1', ca: authority });
    for (const [one, other] of [
      [near, far],
      [far, near],
    ] as const) {
      open.add(one);
      one.on('error', () => {}).pipe(other);
      one.once('close', () => {
        open.delete(one);
        other.destroy();
      });
    }
  });
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  return {
    port: (server.address() as AddressInfo).port,
    close: () => {
      server.close();
      for (const socket of open) socket.destroy();
    },
  };
}
