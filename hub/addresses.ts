/** Where the board can be opened. */
import { hostname, networkInterfaces } from 'node:os';

/** Addresses for tablets on the same network, best first: each IPv4 address, then the computer's name by mDNS. */
export function lanAddresses(port: number, isTls: boolean): string[] {
  const name = localName();
  return [...lanIps(), ...(name === null ? [] : [name])].map(
    (host) => `${isTls ? 'https' : 'http'}://${host}:${port}`,
  );
}

/** Every name and address the hub may be called by, best first: what its certificate is for. */
export function certifiedNames(announced: string | null, configured: readonly string[]): string[] {
  const names = [...configured, announced, localName(), 'localhost', ...lanIps(), '127.0.0.1', '::1'];
  return [...new Set(names.filter((name) => name !== null))];
}

function lanIps(): string[] {
  return Object.values(networkInterfaces())
    .flatMap((one) => one ?? [])
    .filter((one) => one.family === 'IPv4' && !one.internal)
    .map((one) => one.address);
}

/** This computer's own name as mDNS would have it; null: it has none of use. */
function localName(): string | null {
  const name = hostname().split('.')[0] ?? '';
  return name && name !== 'localhost' ? `${name}.local` : null;
}

/** Whether a hub bound to `host` can be reached from this computer only. */
export function isOnlyHere(host: string): boolean {
  return host === 'localhost' || host === '::1' || host.startsWith('127.');
}
