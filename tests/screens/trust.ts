/** A home folder whose Chromium trusts these authorities, as a person would have it trust the hub's on Linux. */
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { findCertutil } from '../debian.mjs';

export type Home = { readonly path: string; remove(): void };

/** `authorities`: PEM. The list is Chromium's own on Linux, the NSS database in `.pki/nssdb` (docs/linux/cert_management.md). */
export function homeThatTrusts(...authorities: readonly string[]): Home {
  const certutil = process.env['CERTUTIL'] ?? findCertutil().path;
  if (certutil === null) throw new Error(findCertutil().why);
  const path = mkdtempSync(join(tmpdir(), 'aisle-board-home-'));
  const list = join(path, '.pki/nssdb');
  mkdirSync(list, { recursive: true });
  const run = (...args: string[]): void => void execFileSync(certutil, ['-d', `sql:${list}`, ...args]);
  run('-N', '--empty-password');
  for (const [i, authority] of authorities.entries()) {
    const file = join(path, `${i}.crt`);
    writeFileSync(file, authority);
    // C: trusted to sign for servers, and for nothing else.
    run('-A', '-n', `authority ${i}`, '-t', 'C,,', '-i', file);
  }
  return { path, remove: () => rmSync(path, { recursive: true, force: true }) };
}
