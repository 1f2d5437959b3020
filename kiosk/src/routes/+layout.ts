import { language, learn } from '../lib/words.ts';

/** The board is drawn in the browser alone: the hub serves these files and the data. */
export const ssr = false;
export const prerender = false;

export async function load(): Promise<void> {
  const { code, direction } = language();
  document.documentElement.lang = code;
  document.documentElement.dir = direction;
  await learn('common');
}
