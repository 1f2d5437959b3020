/**
 * By which names this hub may be called. A page of another site that makes its own name point here (DNS rebinding) still
 * says that name in `Host`, and one that opens a connection from a browser says itself in `Origin` (RFC 6454).
 */
import type { IncomingMessage } from 'node:http';
import { isIP } from 'node:net';
import { hostname } from 'node:os';

/** How the hub is announced on the barn's network; a second hub on it takes the next number. */
const ANNOUNCED = /^aisle-board(-\d+)?\.local$/;

/** A host with or without a port, RFC 9110 §7.2; nothing that a parser could read in two ways. */
const HOST = /^(\[[0-9a-f:.]+\]|[a-z0-9._-]+)(?::\d{1,5})?$/i;

/** `configured`: further names, as `--name` gives them. An address is no name, so nobody can make it point elsewhere. */
export function namesOf(configured: readonly string[]): (host: string) => boolean {
  const own = hostname().toLowerCase();
  const label = own.split('.')[0] ?? own;
  const names = new Set(['localhost', own, label, `${label}.local`, ...configured.map(plain)]);
  return (host) => {
    const name = HOST.exec(host)?.[1];
    if (name === undefined) return false;
    const bare = plain(name.replace(/^\[|\]$/g, ''));
    return isIP(bare) !== 0 || names.has(bare) || ANNOUNCED.test(bare);
  };
}

/** Small letters, without the dot that ends a full name. */
function plain(name: string): string {
  return name.toLowerCase().replace(/\.$/, '');
}

/**
 * Why this request is not for this hub or not from its own pages: an HTTP status; null: it is. A request without `Origin`
 * comes from no page, or only reads.
 */
export function objection(
  request: Pick<IncomingMessage, 'headers' | 'rawHeaders' | 'url' | 'httpVersionMajor'>,
  isOurs: (host: string) => boolean,
): 400 | 403 | 421 | null {
  const { url = '', rawHeaders, headers, httpVersionMajor } = request;
  const hosts = rawHeaders.filter((name, i) => i % 2 === 0 && name.toLowerCase() === 'host').length;
  // Two readings of one request are how one is smuggled past a check (RFC 9112 §3.2).
  if (hosts !== 1 || !url.startsWith('/') || httpVersionMajor !== 1) return 400;
  const { host = '', origin } = headers;
  if (!isOurs(host)) return 421;
  if (origin !== undefined && URL.parse(origin)?.host !== URL.parse(`http://${host}`)?.host) return 403;
  return headers['sec-fetch-site'] === 'cross-site' && headers['sec-fetch-mode'] !== 'navigate' ? 403 : null;
}
