/** Help is fetched after the board: nobody waits for it at the start, and it is there when the hub is away. */
import type HelpSheet from './HelpSheet.svelte';
import { learnLater } from '../../words.ts';

type Help = typeof HelpSheet;

let help: Promise<Help> | null = null;

/** Rejects when it cannot be fetched now; the next call tries again. */
export function loadHelp(): Promise<Help> {
  help ??= fetchHelp().catch((error: unknown) => {
    help = null;
    throw error;
  });
  return help;
}

async function fetchHelp(): Promise<Help> {
  const [sheet] = await Promise.all([import('./HelpSheet.svelte'), learnLater('help')]);
  return sheet.default;
}
