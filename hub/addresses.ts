/** Where the board can be opened. */
import { hostname, networkInterfaces } from 'node:os';

/** Addresses for tablets on the same network, best first: each IPv4 address, then the computer's name by mDNS. */
export function lanAddresses(port: number): string[] {
  const ips = Object.values(networkInterfaces())
    .flatMap((one) => one ?? [])
    .filter((one) => one.family === 'IPv4' && !one.internal)
    .map((one) => one.address);
  const name = hostname().split('.')[0] ?? '';
  return [...ips, ...(name && name !== 'localhost' ? [`${name}.local`] : [])].map(
    (host) => `http://${host}:${port}`,
  );
}

/** Whether a hub bound to `host` can be reached from this computer only. */
export function isOnlyHere(host: string): boolean {
  return host === 'localhost' || host === '::1' || host.startsWith('127.');
}
