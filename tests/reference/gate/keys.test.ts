/** What keeps PINs and tokens: derived keys and hashes against the vectors their standards print. */
import { describe, expect, test } from 'vitest';
import { COST, derive, isPin, keyOf } from '../../../hub/gate/pin.ts';
import { hashOf } from '../../../hub/gate/token.ts';
import { source } from '../source.ts';

describe('scrypt', source('RFC 7914, section 12'), () => {
  // From memory; compared with other programs that quote the section, as the text itself was not at hand: the first vector in
  // five of them, the others in some. The fourth needs 1 GB.
  test.each([
    [
      '',
      '',
      { n: 16, r: 1, p: 1 },
      '77d6576238657b203b19ca42c18a0497f16b4844e3074ae8dfdffa3fede21442fcd0069ded0948f8326a753a0fc81f17e8d3e0fb2e0d3628cf35e20c38d18906',
    ],
    [
      'password',
      'NaCl',
      { n: 1024, r: 8, p: 16 },
      'fdbabe1c9d3472007856e7190d01e9fe7c6ad7cbc8237830e77376634b3731622eaf30d92e22a3886ff109279d9830dac727afb94a83ee6d8360cbdfa2cc0640',
    ],
    [
      'pleaseletmein',
      'SodiumChloride',
      { n: 16384, r: 8, p: 1 },
      '7023bdcb3afd7348461c06cd81fd38ebfda8fbba904f8e3ea9b543f6545da1f2d5432955613f0fcf62d49705242a9af9e61e85dc0d651e40dfcf017b45575887',
    ],
  ])('of "%s" with salt "%s", %o', async (secret, salt, cost, expected) => {
    expect((await derive(secret, salt, cost, 64)).toString('hex')).toBe(expected);
  });

  test('a PIN is kept by the same, with a salt of its own each time', async () => {
    const [one, other] = await Promise.all([keyOf('728405'), keyOf('728405')]);
    expect(one.salt).not.toBe(other.salt);
    expect(Buffer.from(one.salt, 'base64')).toHaveLength(16);
    const again = await derive('728405', Buffer.from(one.salt, 'base64'), one, 32);
    expect(again.toString('base64')).toBe(one.key);
    expect(await isPin('728405', one)).toBe(true);
    expect(await isPin('728406', one)).toBe(false);
  });
});

// The page's settings for scrypt, as its repository had them in 2023; it calls them equal in defence.
const OWASP = [
  { n: 2 ** 17, r: 8, p: 1 },
  { n: 2 ** 16, r: 8, p: 2 },
  { n: 2 ** 15, r: 8, p: 3 },
  { n: 2 ** 14, r: 8, p: 5 },
  { n: 2 ** 13, r: 8, p: 10 },
];

test(
  'a PIN costs what is asked of scrypt',
  source('OWASP Cheat Sheet Series, Password Storage, scrypt (2023)'),
  async () => {
    expect(OWASP).toContainEqual(COST);
    expect(await keyOf('728405')).toMatchObject(COST);
  },
);

test.each([
  ['abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
  [
    'abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq',
    '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
  ],
])(
  'a token is kept as SHA-256: "%s"',
  source('NIST, SHA-256 examples for FIPS 180-4 (one and two blocks)'),
  (text, expected) => {
    expect(hashOf(text)).toBe(expected);
  },
);
