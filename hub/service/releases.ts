/**
 * The installed programs, side by side: `releases/NAME`, and two links beside them, `current` and `previous`. Going over to
 * another one is one rename, so that a plug pulled in between leaves a program that starts.
 */
import { mkdir, readlink, rename, rm, symlink } from 'node:fs/promises';
import { basename, join } from 'node:path';
import { syncFolder } from '../storage/files.ts';
import { copyProgram, type Program } from './program.ts';

export class Releases {
  readonly #root: string;

  constructor(root: string) {
    this.#root = root;
  }

  folderOf(name: string): string {
    return join(this.#root, 'releases', name);
  }

  /** Name of the program `current` or `previous` leads to; null when there is none. */
  async named(link: 'current' | 'previous'): Promise<string | null> {
    return readlink(join(this.#root, link)).then(
      (to) => basename(to),
      () => null,
    );
  }

  /** Copies a program in and answers with its name, without going over to it. `at`: date and time in the name. */
  async add(program: Program, at: string): Promise<string> {
    const name = `${program.version}-${at}`;
    await mkdir(join(this.#root, 'releases'), { recursive: true });
    await copyProgram(program, this.folderOf(name));
    return name;
  }

  /** Goes over to `name`; the one before becomes `previous`. */
  async use(name: string): Promise<void> {
    const before = await this.named('current');
    if (before === name) return;
    if (before !== null) await this.#lead('previous', before);
    await this.#lead('current', name);
    await syncFolder(this.#root);
  }

  /** Takes a program out again. */
  async remove(name: string): Promise<void> {
    await rm(this.folderOf(name), { recursive: true, force: true });
  }

  async #lead(link: 'current' | 'previous', name: string): Promise<void> {
    const made = join(this.#root, `.${link}.new`);
    await rm(made, { force: true });
    await symlink(join('releases', name), made);
    await rename(made, join(this.#root, link));
  }
}
