/** A file of JSON for lowdb that survives a power cut: sealed, and written whole or not at all. */
import { readFile } from 'node:fs/promises';
import type { Adapter } from 'lowdb';
import { codeOf, StartError } from '../startError.ts';
import { writeWhole } from './files.ts';
import { seal, unseal } from './seal.ts';

export type Raw = { readonly data: unknown; readonly isWhole: boolean; readonly isSealed: boolean };

export class SealedFile implements Adapter<unknown> {
  readonly #path: string;
  /** As it was read last; null: there is none. */
  raw: Raw | null = null;

  constructor(path: string) {
    this.#path = path;
  }

  /** Null: there is none. Throws StartError for what is no JSON. */
  async read(): Promise<unknown> {
    this.raw = null;
    try {
      this.raw = unseal(await readFile(this.#path, 'utf8'));
      return this.raw.data;
    } catch (error) {
      if (codeOf(error) === 'ENOENT') return null;
      throw damaged(this.#path, error);
    }
  }

  async write(data: unknown): Promise<void> {
    await writeWhole(this.#path, seal(data as object));
  }
}

export function damaged(path: string, why: unknown): StartError {
  return new StartError(
    `${path} is damaged and cannot be read. Put the folder back from a backup (npm run restore), or move it aside to begin anew. Nothing was changed.`,
    { cause: why },
  );
}
