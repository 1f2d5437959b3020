/**
 * What the hub says of itself, line by line: to the terminal (or the system's journal), and to files that are let go of
 * before they fill the disk. Nothing personal is in it, and a log that cannot be written stops nothing.
 */
// oxlint-disable-next-line typescript/triple-slash-reference -- so that whoever imports this file finds the types
/// <reference path="./pino-roll.d.ts" />
import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import pino from 'pino';
import roll from 'pino-roll';

const LOG_FOLDER = 'log';
const FILE_SIZE = '1m';
/** Besides the one written to. */
const KEPT_FILES = 4;
const OWNER_ONLY = 0o700;

export type Log = { readonly line: (line: string) => void; close(): Promise<void> };

/** Logs into `data`/log/hub.N.log, as JSON lines with the time; and each line as it is to standard error. */
export async function openLog(data: string, terminal: (line: string) => void = console.error): Promise<Log> {
  const folder = join(data, LOG_FOLDER);
  try {
    await mkdir(folder, { recursive: true, mode: OWNER_ONLY });
    const file = await roll({
      file: join(folder, 'hub'),
      extension: '.log',
      size: FILE_SIZE,
      // A line said just before the end is there afterwards; there are few of them.
      sync: true,
      limit: { count: KEPT_FILES, removeOtherLogFiles: true },
    });
    // Else a full disk would end the hub: Node ends a process for an error nobody listens to.
    file.on('error', () => {});
    const logger = pino({ base: null, timestamp: pino.stdTimeFunctions.isoTime }, file);
    return {
      line: (line) => {
        terminal(line);
        logger.info(line);
      },
      close: () =>
        new Promise((done) => {
          file.once('close', () => done());
          file.end();
        }),
    };
  } catch (error) {
    terminal(`Nothing is logged to ${folder}: ${String(error)}`);
    return { line: terminal, close: async () => {} };
  }
}
