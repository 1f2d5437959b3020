/**
 * The certificate the hub shows, kept in a folder that the hub alone can read: made when there is none, renewed in good
 * time or when the hub is called otherwise than before. Or the barn's own certificate files, read anew when they change.
 */
import { mkdir, readFile, unlink } from 'node:fs/promises';
import { join } from 'node:path';
import { codeOf, StartError } from '../startError.ts';
import { writeWhole } from '../storage/files.ts';
import { fingerprint, issueLeaf, LEAF_DAYS, makeAuthority, readLeaf, type Certified } from './authority.ts';

const DAY_MS = 24 * 60 * 60 * 1000;
/** A third of its time before its end. */
export const RENEW_BEFORE_MS = (LEAF_DAYS / 3) * DAY_MS;

const OWNER_ONLY_FOLDER = 0o700;

/** What is to be shown, and by whom it is signed. */
export type Shown = Certified & {
  /** The authority that tablets must trust, as PEM; null: the barn's own files, whose authority is the barn's business. */
  readonly authority: string | null;
  /** SHA-256 of the authority, for people to compare. */
  readonly print: string | null;
};

export type Certificates = {
  readonly shown: Shown;
  /** Looks whether another certificate is to be shown by now; answers with it, or null when all stays. */
  look(names: readonly string[], now: number): Promise<Shown | null>;
};

/**
 * The hub's own authority and certificate in `folder`. `names`: what the hub is called, best first. Throws StartError when
 * the folder cannot be used.
 */
export async function ownCertificates(
  folder: string,
  barn: string,
  names: readonly string[],
  now: number,
): Promise<Certificates> {
  try {
    await mkdir(folder, { recursive: true, mode: OWNER_ONLY_FOLDER });
    const authority =
      (await readPair(folder, 'authority')) ??
      (await keepPair(folder, 'authority', await makeAuthority(barn, now)));
    const print = await fingerprint(authority.cert);
    let leaf = await readPair(folder, 'hub');
    const renewed = async (wanted: readonly string[], at: number): Promise<Shown | null> => {
      if (leaf !== null && isGood(leaf, wanted, at)) return null;
      leaf = await keepPair(folder, 'hub', await issueLeaf(authority, wanted, at));
      return (certificates.shown = { ...leaf, authority: authority.cert, print });
    };
    const certificates: { shown: Shown; look: Certificates['look'] } = {
      shown: { ...(leaf ?? authority), authority: authority.cert, print },
      look: renewed,
    };
    await renewed(names, now);
    return certificates;
  } catch (error) {
    if (error instanceof StartError) throw error;
    throw new StartError(
      `The certificates in ${folder} cannot be used (${codeOf(error) || String(error)}).`,
      {
        cause: error,
      },
    );
  }
}

/** The barn's own certificate (with the chain, if any) and key. Throws StartError when they cannot be read. */
export async function givenCertificates(certFile: string, keyFile: string): Promise<Certificates> {
  const read = async (): Promise<Shown> => {
    try {
      const [cert, key] = await Promise.all([readFile(certFile, 'utf8'), readFile(keyFile, 'utf8')]);
      return { cert, key, authority: null, print: null };
    } catch (error) {
      throw new StartError(`The certificate files cannot be read (${codeOf(error)}).`, { cause: error });
    }
  };
  const certificates: { shown: Shown; look: Certificates['look'] } = {
    shown: await read(),
    look: async () => {
      const now = await read().catch(() => certificates.shown);
      if (now.cert === certificates.shown.cert && now.key === certificates.shown.key) return null;
      return (certificates.shown = now);
    },
  };
  return certificates;
}

/** Good for a while yet, and for every name wanted. */
function isGood({ cert }: Certified, wanted: readonly string[], now: number): boolean {
  const { names, until } = readLeaf(cert);
  return until - now > RENEW_BEFORE_MS && wanted.every((name) => names.includes(name));
}

async function readPair(folder: string, name: string): Promise<Certified | null> {
  try {
    // Both in one file: never one without the other.
    const [cert, key] = (await readFile(join(folder, `${name}.pem`), 'utf8')).split(BETWEEN);
    if (cert !== undefined && key !== undefined) return { cert, key };
    throw new StartError(
      `${join(folder, `${name}.pem`)} is damaged. Put it back from a backup, or take it away: then a new one is made` +
        (name === 'authority' ? ', and every tablet must trust the new one.' : '.'),
    );
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return null;
    throw error;
  }
}

const BETWEEN = '\n\n';

async function keepPair(folder: string, name: string, pair: Certified): Promise<Certified> {
  const kept = { cert: pair.cert.trim(), key: pair.key.trim() };
  await unlink(join(folder, `${name}.pem.new`)).catch(() => {});
  await writeWhole(join(folder, `${name}.pem`), `${kept.cert}${BETWEEN}${kept.key}`);
  return kept;
}
