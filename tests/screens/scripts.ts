/** What of JavaScript a board has fetched, by its first picture and after it. */
import type { Page } from 'playwright';

declare global {
  interface Window {
    scripts: {
      /** Addresses and bytes as they came over the network: gzip, which is what browsers ask for on plain http. */
      so: () => readonly { readonly name: string; readonly bytes: number }[];
      /** By the first picture; null before it. */
      first: readonly { readonly name: string; readonly bytes: number }[] | null;
      /** Of the first picture, ms since the page was asked for. */
      at: number | null;
    };
  }
}

/** Notes, before the page runs, when what `first` selects is drawn, and what had been asked for once it was there to be drawn. */
export async function noteScripts(page: Page, first: string): Promise<void> {
  await page.addInitScript((selector) => {
    const askedForBy = (at: number): ReturnType<Window['scripts']['so']> =>
      (performance.getEntriesByType('resource') as PerformanceResourceTiming[])
        .filter(({ name, startTime }) => name.endsWith('.js') && startTime <= at)
        .map(({ name, encodedBodySize }) => ({ name, bytes: encodedBodySize }));
    window.scripts = { so: () => askedForBy(Infinity), first: null, at: null };
    new MutationObserver((_, self) => {
      if (!document.querySelector(selector)) return;
      self.disconnect();
      // On a busy machine the paint may come after what is fetched later has begun to.
      const there = performance.now();
      requestAnimationFrame(() => {
        window.scripts.at = performance.now();
        window.scripts.first = askedForBy(there);
      });
    }).observe(document, { childList: true, subtree: true });
  }, first);
}

export const sumOf = (scripts: readonly { readonly bytes: number }[]): number =>
  scripts.reduce((sum, { bytes }) => sum + bytes, 0);
