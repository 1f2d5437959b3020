/** What every response says to a browser about itself. */
import { STATUS_CODES, type ServerResponse } from 'node:http';
import type { Duplex } from 'node:stream';

/** Kit's own line for screen readers is the one style attribute there is, by its hash. */
const STYLE_ATTRIBUTE = "'unsafe-hashes' 'sha256-S8qMpvofolR8Mpjy4kQvEm7m1q8clzU4dfDH0AmvZjo='";

/** What a wall board needs of a device, and nothing else. */
const PERMISSIONS = [
  ...['camera', 'display-capture', 'geolocation', 'microphone', 'midi', 'payment', 'usb', 'serial'].map(
    (name) => `${name}=()`,
  ),
  'fullscreen=(self)',
  'screen-wake-lock=(self)',
].join(', ');

/** Content Security Policy, level 3. `host`: as the request named it, checked; empty: it named none of ours; sockets count under 'self' not everywhere. */
function policy(host: string): string {
  return [
    "default-src 'none'",
    "script-src 'self'",
    "style-src 'self'",
    `style-src-attr ${STYLE_ATTRIBUTE}`,
    "img-src 'self' data: blob:",
    "media-src 'self' data: blob:",
    "font-src 'self'",
    host === '' ? "connect-src 'none'" : `connect-src 'self' ws://${host} wss://${host}`,
    "worker-src 'self'",
    "manifest-src 'self'",
    "object-src 'none'",
    "base-uri 'self'",
    "form-action 'self'",
    "frame-ancestors 'none'",
  ].join('; ');
}

/** By name. `host`: as for the policy. */
function securityHeaders(host: string): Record<string, string> {
  return {
    'Content-Security-Policy': policy(host),
    'X-Content-Type-Options': 'nosniff',
    'X-Frame-Options': 'DENY',
    'Referrer-Policy': 'no-referrer',
    'Permissions-Policy': PERMISSIONS,
    'Cross-Origin-Opener-Policy': 'same-origin',
    'Cross-Origin-Resource-Policy': 'same-origin',
  };
}

export function secure(response: ServerResponse, host: string): void {
  for (const [name, value] of Object.entries(securityHeaders(host))) response.setHeader(name, value);
}

/**
 * Answers a connection that has no response of its own, with nothing but a status, and ends it. The other end is not waited
 * for: it may never end its half.
 */
export function turnAway(socket: Duplex, status: number): void {
  const headers = {
    ...securityHeaders(''),
    'Cache-Control': 'no-store',
    'Content-Length': '0',
    Connection: 'close',
  };
  const lines = Object.entries(headers).map(([name, value]) => `${name}: ${value}\r\n`);
  const head = `HTTP/1.1 ${status} ${STATUS_CODES[status]}\r\n${lines.join('')}\r\n`;
  socket.end(head, () => socket.destroy());
}
