/** The thread that looks for stand-ins: a board and its places in, options in plain sentences out. */
import { parentPort } from 'node:worker_threads';
import { readinessByTrial } from '#core/plan/standIns/readiness.ts';
import { standIns } from '#core/plan/standIns/standIns.ts';
import { languageFor } from '#core/words/languages.ts';
import { sayStandIns } from '#core/words/standInsSaid.ts';
import type { Found, Search } from './standIns.ts';

parentPort?.on('message', (search: Search) => {
  void answer(search).then((found) => parentPort?.postMessage(found));
});

async function answer({ board, at, places, learned, language }: Search): Promise<Found> {
  try {
    const ready = readinessByTrial(board, at, { learned });
    const plan = await languageFor([language]).load.plan();
    return { found: sayStandIns(board, standIns(board, at, places, ready), plan) };
  } catch (error) {
    return { failure: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  }
}
