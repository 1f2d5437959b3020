/**
 * One hub for one folder. The lock is the operating system's own, through SQLite, the only way to one that Node has:
 * it is gone the moment the process is, however it ended, so no stale lock can stand in the way.
 */
import { DatabaseSync } from 'node:sqlite';
import { StartError } from '../startError.ts';

const SQLITE_BUSY = 5;

/** Takes the lock on `path`; the answer gives it back. Throws StartError when another process has it. */
export function takeLock(path: string, folder: string): () => void {
  const lock = new DatabaseSync(path);
  try {
    lock.exec('PRAGMA journal_mode = MEMORY; BEGIN EXCLUSIVE');
  } catch (error) {
    lock.close();
    if (error instanceof Error && 'errcode' in error && error.errcode === SQLITE_BUSY) {
      throw new StartError(
        `Another hub is already running on the folder ${folder}. Stop it first, or choose another folder with --data.`,
      );
    }
    throw error;
  }
  return () => lock.close();
}
