/**
 * How long tables of 200 horses, 500 people and 2,000 lessons take: `import` from text to records and into the board, `browser`
 * through the page in Chromium until they are on the hub's disk.
 *
 *   npm run bench -- import [--json]
 */
import { throughTheDomain } from './domain.ts';
import { throughThePage } from './browser.ts';

/** `--json` is the only way it speaks. */
export async function main(): Promise<number> {
  const figures = throughTheDomain();
  const browser = await throughThePage();
  console.log(JSON.stringify({ import: figures, browser }, null, 2));
  const isWhole =
    figures.every(({ problems }) => problems === 0) && browser.every(({ isOnDisk }) => isOnDisk);
  return isWhole ? 0 : 1;
}
