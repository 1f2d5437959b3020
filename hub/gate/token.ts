/**
 * What a paired tablet shows: a random token in a cookie that the page itself cannot read. The hub keeps its SHA-256 only.
 */
import { createHash, randomBytes, timingSafeEqual } from 'node:crypto';
import type { IncomingMessage } from 'node:http';

const TOKEN_BYTES = 32;

/** The longest that browsers keep a cookie; it is given anew with every connection. */
const COOKIE_S = 400 * 24 * 3600;

export function newToken(): string {
  return randomBytes(TOKEN_BYTES).toString('base64url');
}

/** SHA-256 in hex. */
export function hashOf(token: string): string {
  return createHash('sha256').update(token).digest('hex');
}

/** Whether both are the same, in a time that does not tell where they differ. */
export function isSameHash(a: string, b: string): boolean {
  const [one, other] = [Buffer.from(a), Buffer.from(b)];
  return one.length === other.length && timingSafeEqual(one, other);
}

/** Browsers give every port of a computer the same cookies, so the name has the hub's. */
const nameOf = (port: number): string => `aisle-board-${port}`;

/** The token this request shows; null: none. */
export function tokenIn({ headers }: Pick<IncomingMessage, 'headers'>, port: number): string | null {
  const name = nameOf(port);
  for (const pair of (headers.cookie ?? '').split(';')) {
    const at = pair.indexOf('=');
    if (pair.slice(0, at).trim() === name) return pair.slice(at + 1).trim();
  }
  return null;
}

/** The `Set-Cookie` line that gives a tablet its token. Null takes it away. */
export function cookieFor(token: string | null, port: number, isEncrypted: boolean): string {
  const how = `Path=/; HttpOnly; SameSite=Strict${isEncrypted ? '; Secure' : ''}`;
  return `${nameOf(port)}=${token ?? ''}; Max-Age=${token === null ? 0 : COOKIE_S}; ${how}`;
}
