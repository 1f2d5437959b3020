/**
 * The hub's own small certificate authority: makes and signs certificates. Pure but for the key material it draws.
 *
 * The authority is bound to names of a barn's own network (RFC 5280, name constraints): a tablet, or somebody's phone, that
 * trusts it does not trust it for any place on the internet, whoever got hold of its key.
 */
import 'reflect-metadata';
import { isIP } from 'node:net';
import { AsnConvert } from '@peculiar/asn1-schema';
import { GeneralName, GeneralSubtree, GeneralSubtrees, NameConstraints } from '@peculiar/asn1-x509';
import * as x509 from '@peculiar/x509';

const DAY_MS = 24 * 60 * 60 * 1000;
/** As long as a tablet on a wall lasts: nobody should have to trust it twice. */
const AUTHORITY_DAYS = 3650;
/** Apple's devices take at most 825 days from an authority that was added by hand (from memory). */
export const LEAF_DAYS = 90;
/** Clocks of hub and tablets differ. */
const BEFORE_DAYS = 1;

const SIGNING = { name: 'ECDSA', namedCurve: 'P-256', hash: 'SHA-256' };
const NAME_CONSTRAINTS = '2.5.29.30';

/** RFC 1918, RFC 3927, RFC 4193, RFC 4291 and the loopbacks: no address of theirs is anybody's on the internet. */
const OWN_ADDRESSES = [
  '10.0.0.0/8',
  '172.16.0.0/12',
  '192.168.0.0/16',
  '169.254.0.0/16',
  '127.0.0.0/8',
  'fc00::/7',
  'fe80::/10',
  '::1/128',
];
/** RFC 6762 and RFC 6761. */
const OWN_DOMAINS = ['local', 'localhost', 'home.arpa'];

/** A certificate and its key, as PEM. */
export type Certified = { readonly cert: string; readonly key: string };

/** A new authority for the barn's hub, as from `now` (ms since 1970). */
export async function makeAuthority(name: string, now: number): Promise<Certified> {
  const keys = await drawKeys();
  const subject = [{ CN: [`${name} (Aisle Board)`] }];
  const cert = await x509.X509CertificateGenerator.createSelfSigned({
    serialNumber: serial(),
    name: subject,
    notBefore: new Date(now - BEFORE_DAYS * DAY_MS),
    notAfter: new Date(now + AUTHORITY_DAYS * DAY_MS),
    signingAlgorithm: SIGNING,
    keys,
    extensions: [
      new x509.BasicConstraintsExtension(true, 0, true),
      new x509.KeyUsagesExtension(x509.KeyUsageFlags.keyCertSign | x509.KeyUsageFlags.cRLSign, true),
      await x509.SubjectKeyIdentifierExtension.create(keys.publicKey),
      new x509.Extension(NAME_CONSTRAINTS, true, ownNamesOnly()),
    ],
  });
  return { cert: cert.toString('pem'), key: await pemOf(keys.privateKey) };
}

/** A certificate for a server under these names and addresses, signed by the authority, as from `now`. */
export async function issueLeaf(
  authority: Certified,
  names: readonly string[],
  now: number,
): Promise<Certified> {
  const issuer = new x509.X509Certificate(authority.cert);
  const keys = await drawKeys();
  const cert = await x509.X509CertificateGenerator.create({
    serialNumber: serial(),
    // An address here would count as a name, which the authority may not certify.
    subject: [{ CN: [names.find((name) => !isIP(name)) ?? 'aisle-board.local'] }],
    issuer: issuer.subjectName,
    notBefore: new Date(now - BEFORE_DAYS * DAY_MS),
    notAfter: new Date(Math.min(now + LEAF_DAYS * DAY_MS, issuer.notAfter.getTime())),
    signingAlgorithm: SIGNING,
    publicKey: keys.publicKey,
    signingKey: await keyFrom(authority.key),
    extensions: [
      new x509.BasicConstraintsExtension(false, undefined, true),
      new x509.KeyUsagesExtension(x509.KeyUsageFlags.digitalSignature, true),
      new x509.ExtendedKeyUsageExtension([x509.ExtendedKeyUsage.serverAuth]),
      new x509.SubjectAlternativeNameExtension(
        names.map((value) => ({ type: isIP(value) ? 'ip' : 'dns', value }) as const),
      ),
      await x509.AuthorityKeyIdentifierExtension.create(issuer.publicKey),
      await x509.SubjectKeyIdentifierExtension.create(keys.publicKey),
    ],
  });
  return { cert: cert.toString('pem'), key: await pemOf(keys.privateKey) };
}

/** The names and addresses a certificate is for, sorted; and until when it is good, ms since 1970. */
export function readLeaf(cert: string): { names: string[]; until: number } {
  const leaf = new x509.X509Certificate(cert);
  const names = leaf.getExtension(x509.SubjectAlternativeNameExtension)?.names.items ?? [];
  return { names: names.map(({ value }) => value).sort(), until: leaf.notAfter.getTime() };
}

/** SHA-256 of the certificate as people compare it, e.g. `1A:2B:…`. */
export async function fingerprint(cert: string): Promise<string> {
  const print = await new x509.X509Certificate(cert).getThumbprint('SHA-256');
  return Buffer.from(print)
    .toString('hex')
    .toUpperCase()
    .replaceAll(/(..)(?!$)/g, '$1:');
}

function ownNamesOnly(): ArrayBuffer {
  const bases = [
    ...OWN_DOMAINS.map((dNSName) => new GeneralName({ dNSName })),
    ...OWN_ADDRESSES.map((iPAddress) => new GeneralName({ iPAddress })),
  ];
  const permittedSubtrees = new GeneralSubtrees(bases.map((base) => new GeneralSubtree({ base })));
  return AsnConvert.serialize(new NameConstraints({ permittedSubtrees }));
}

/** Their types are the platform's: Node's and the browser's own differ, and this file is read with either. */
type Keys = Awaited<ReturnType<typeof drawKeys>>;

function drawKeys() {
  return crypto.subtle.generateKey(SIGNING, true, ['sign', 'verify']);
}

/** 16 random bytes of a positive number (RFC 5280, 4.1.2.2: at most 20). */
function serial(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[0] = ((bytes[0] ?? 0) & 0x7f) | 0x40;
  return Buffer.from(bytes).toString('hex');
}

async function pemOf(key: Keys['privateKey']): Promise<string> {
  return x509.PemConverter.encode(await crypto.subtle.exportKey('pkcs8', key), 'PRIVATE KEY');
}

function keyFrom(pem: string): Promise<Keys['privateKey']> {
  return crypto.subtle.importKey('pkcs8', x509.PemConverter.decodeFirst(pem), SIGNING, false, ['sign']);
}
