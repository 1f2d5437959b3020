/** A coordinator's PIN, kept as scrypt (RFC 7914) with a salt of its own. */
import { randomBytes, scrypt, timingSafeEqual } from 'node:crypto';
import * as z from 'zod/mini';
import { PIN_DIGITS } from '#core/wire/locking.ts';

/** `n`, `r`, `p` as RFC 7914 §2 names them; stored, so that they can be raised later. Salt and key in base64. */
export const PinKey = z.object({
  n: z.int(),
  r: z.int(),
  p: z.int(),
  salt: z.string(),
  key: z.string(),
});
export type PinKey = z.infer<typeof PinKey>;

/**
 * 32 MB and some 250 ms on a small computer: one of the settings that OWASP's Password Storage Cheat Sheet gives for scrypt. With it a stolen file still gives up six digits in a day: the file's own
 * rights are what keeps it, this only what keeps a glance at it from being enough.
 */
export const COST = { n: 2 ** 15, r: 8, p: 3 };
const SALT_BYTES = 16;
const KEY_BYTES = 32;

/** The derived key; `salt` and the answer are bytes. Rejects for parameters that RFC 7914 does not allow. */
export function derive(
  secret: string,
  salt: string | Buffer,
  { n, r, p }: Pick<PinKey, 'n' | 'r' | 'p'>,
  bytes: number,
): Promise<Buffer> {
  return new Promise((done, fail) => {
    // What scrypt needs is 128 · n · r bytes (RFC 7914 §5), and a little.
    scrypt(secret, salt, bytes, { N: n, r, p, maxmem: 128 * n * r + 2 ** 20 + 128 * r * p }, (error, key) =>
      error ? fail(error) : done(key),
    );
  });
}

export async function keyOf(pin: string): Promise<PinKey> {
  const salt = randomBytes(SALT_BYTES);
  const key = await derive(pin, salt, COST, KEY_BYTES);
  return { ...COST, salt: salt.toString('base64'), key: key.toString('base64') };
}

export async function isPin(pin: string, known: PinKey): Promise<boolean> {
  const key = Buffer.from(known.key, 'base64');
  return timingSafeEqual(await derive(pin, Buffer.from(known.salt, 'base64'), known, key.length), key);
}

/** Too short, or what everybody tries first: one digit over and over, or digits that count up or down. */
export function isWeak(pin: string): boolean {
  if (pin.length < PIN_DIGITS.least) return true;
  const steps = new Set(Array.from(pin.slice(1), (digit, i) => (Number(digit) - Number(pin[i]) + 10) % 10));
  const [only] = steps;
  return steps.size === 1 && (only === 0 || only === 1 || only === 9);
}
