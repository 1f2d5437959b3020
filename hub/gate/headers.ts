/** What every response says to a browser about itself. */
import type { ServerResponse } from 'node:http';

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

export function secure(response: ServerResponse, host: string): void {
  response.setHeader('Content-Security-Policy', policy(host));
  response.setHeader('X-Content-Type-Options', 'nosniff');
  response.setHeader('X-Frame-Options', 'DENY');
  response.setHeader('Referrer-Policy', 'no-referrer');
  response.setHeader('Permissions-Policy', PERMISSIONS);
  response.setHeader('Cross-Origin-Opener-Policy', 'same-origin');
  response.setHeader('Cross-Origin-Resource-Policy', 'same-origin');
}
