/** The thread that looks for stand-ins: a board and its places in, options in plain sentences out. */
import { parentPort } from 'node:worker_threads';
import { readinessByTrial } from '#core/plan/standIns/readiness.ts';
import { standIns } from '#core/plan/standIns/standIns.ts';
import { sayStandIns } from '#core/words/standInsSaid.ts';
import type { Found, Search } from './standIns.ts';

parentPort?.on('message', (search: Search) => parentPort?.postMessage(answer(search)));

function answer({ board, at, places, learned }: Search): Found {
  try {
    const ready = readinessByTrial(board, at, { learned });
    return { found: sayStandIns(board, standIns(board, at, places, ready)) };
  } catch (error) {
    return { failure: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  }
}
