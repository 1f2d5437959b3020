/** The same tables through the page: chosen, looked at, taken, and on the hub's disk when the page says so. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright';
import { emptyBoard } from '#core/day/emptyBoard.ts';
import { hang, launch, TestBarn } from '../../screens/browser.ts';
import { TABLES, type BenchTable } from './tables.ts';

export type BrowserFigure = {
  readonly what: string;
  readonly rows: number;
  /** From the choice to the whole preview on the screen. */
  readonly previewMs: number;
  /** From the tap to the hub's word that it is on disk, on the screen. */
  readonly takeMs: number;
  readonly totalMs: number;
  /** Longest time the page answered nothing. */
  readonly longestTaskMs: number;
  /** How often the page said how far it was. */
  readonly progress: number;
  /** Whether a file of the hub has it. */
  readonly isOnDisk: boolean;
};

type Seen = { longest: number; progress: number };
declare global {
  interface Window {
    imported: Seen;
  }
}

export async function throughThePage(): Promise<BrowserFigure[]> {
  const barn = new TestBarn(emptyBoard('Barn', 'America/Denver'), Date.UTC(2026, 4, 11, 14));
  await barn.start();
  const browser = await launch();
  try {
    const { page } = await hang(browser, barn.url, { role: 'coordinator' });
    await page.goto(`${barn.url}/import`);
    await page.locator('[data-screen="files"]').waitFor();
    const figures: BrowserFigure[] = [];
    for (const table of TABLES) figures.push(await bring(page, barn.folder, table));
    return figures;
  } finally {
    await browser.close();
    await barn.clear();
  }
}

async function bring(page: Page, folder: string, { what, rows, text }: BenchTable): Promise<BrowserFigure> {
  const another = page.locator('[data-action="another"]');
  if (await another.isVisible()) await another.click();
  await page.locator('input[type="file"]').waitFor({ state: 'attached' });
  await page.evaluate(watch);
  const file = { name: `${what}.csv`, mimeType: 'text/csv', buffer: Buffer.from(text) };
  const chosen = performance.now();
  await page.setInputFiles('input[type="file"]', file);
  const take = page.locator('[data-action="take"]');
  await take.waitFor();
  const looked = performance.now();
  await take.click();
  await page.locator('[data-fact="taken"]').waitFor({ timeout: 60_000 });
  const taken = performance.now();
  const isOnDisk = readdirSync(folder)
    .filter((name) => name.startsWith('journal-'))
    .some((name) => readFileSync(join(folder, name), 'latin1').includes(`"name":"${what}.csv"`));
  const { longest, progress } = await page.evaluate(() => window.imported);
  return {
    what,
    rows,
    previewMs: Math.round(looked - chosen),
    takeMs: Math.round(taken - looked),
    totalMs: Math.round(taken - chosen),
    longestTaskMs: Math.round(longest),
    progress,
    isOnDisk,
  };
}

/** Runs in the page. */
function watch(): void {
  const seen: Seen = (window.imported = { longest: 0, progress: 0 });
  new PerformanceObserver((list) => {
    for (const { duration } of list.getEntries()) seen.longest = Math.max(seen.longest, duration);
  }).observe({ type: 'longtask' });
  new MutationObserver(() => {
    if (document.querySelector('progress')) seen.progress += 1;
  }).observe(document.body, { childList: true, subtree: true, attributes: true, attributeFilter: ['value'] });
}
