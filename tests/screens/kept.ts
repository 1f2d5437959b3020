/**
 * Pictures that are kept, small, beside the tests: every screen by day and by night, both ways up, in both languages. What a
 * screen looks like now is held against them by eye-sized patches, so that other letters or a minute more do not matter and a
 * screen that has fallen apart does. `npm run pictures -- keep` takes them anew, to be looked at.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { mkdir } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright';
import { LANDSCAPE, PORTRAIT } from './browser.ts';
import { ALL_STATES, type Seen } from './seen.ts';

const FOLDER = fileURLToPath(new URL('kept', import.meta.url));

const VIEWPORTS = [LANDSCAPE, PORTRAIT];
const THEMES = ['day', 'night'] as const;
export const LOOKED_AT_IN = ['en', 'es'];

/** Each screen as it is most of the time, and a sheet over a screen. */
const NAMES = /^(aisle|aisle horse|door|coordinator|records|sheet|end|print|import|place|glass|begin|pair)$/;
export const KEPT: readonly Seen[] = ALL_STATES.filter(({ name }) => NAMES.test(name));

/** A page that was turned or darkened has been drawn anew by then. */
const TURNED_MS = 400;

/** A patch is as large as a target: 40 CSS px. */
const PATCH_PX = 40;
/** What is kept of a CSS pixel. */
const KEPT_SHARE = 0.25;

/** Shows an open page by day and by night, both ways up; `set` names the way it is seen. */
export async function everyWay(
  page: Page,
  language: string,
  take: (set: string) => Promise<unknown>,
  settledMs = TURNED_MS,
): Promise<void> {
  for (const viewport of VIEWPORTS) {
    await page.setViewportSize(viewport);
    for (const theme of THEMES) {
      await page.evaluate((one) => (document.documentElement.dataset['theme'] = one), theme);
      await page.waitForTimeout(settledMs);
      await take(`${language}-${theme}-${viewport.width}x${viewport.height}`);
    }
  }
}

export const fileName = ({ name }: Seen): string => name.replaceAll(/\W+/g, '-');

const keptAt = (set: string, seen: Seen): string => join(FOLDER, set, `${fileName(seen)}.webp`);

/** A page of its own in which pictures are made small and laid side by side. */
export class Darkroom {
  readonly #page: Promise<Page>;

  constructor(browser: Browser) {
    this.#page = browser.newPage();
  }

  async keep(taken: Buffer, set: string, seen: Seen): Promise<void> {
    const page = await this.#page;
    const url = await page.evaluate(
      async ([png, share]) => {
        const image = await createImageBitmap(await (await fetch(png)).blob());
        const canvas = document.createElement('canvas');
        Object.assign(canvas, { width: image.width * share, height: image.height * share });
        const pen = canvas.getContext('2d');
        if (pen) pen.imageSmoothingQuality = 'high';
        pen?.drawImage(image, 0, 0, canvas.width, canvas.height);
        return canvas.toDataURL('image/webp', 0.7);
      },
      [asUrl(taken, 'png'), KEPT_SHARE] as const,
    );
    await mkdir(dirname(keptAt(set, seen)), { recursive: true });
    writeFileSync(keptAt(set, seen), Buffer.from(url.split(',')[1] ?? '', 'base64'));
  }

  /** How far a picture is from the one that is kept, 0 to 1 of the way from black to white: its worst patch, and all on average. */
  async apart(taken: Buffer, set: string, seen: Seen): Promise<{ worst: number; mean: number }> {
    const page = await this.#page;
    const urls = [asUrl(taken, 'png'), asUrl(readFileSync(keptAt(set, seen)), 'webp')] as const;
    return page.evaluate(
      async ([[now, kept], patchPx, share]) => {
        const patches = async (url: string, px: number): Promise<number[]> => {
          const image = await createImageBitmap(await (await fetch(url)).blob());
          const canvas = document.createElement('canvas');
          Object.assign(canvas, { width: image.width / px, height: image.height / px });
          const pen = canvas.getContext('2d');
          if (!pen) throw new Error('no canvas');
          pen.imageSmoothingQuality = 'high';
          pen.drawImage(image, 0, 0, canvas.width, canvas.height);
          return [...pen.getImageData(0, 0, canvas.width, canvas.height).data];
        };
        const [a, b] = [await patches(now, patchPx), await patches(kept, patchPx * share)];
        if (a.length !== b.length) return { worst: 1, mean: 1 };
        // Alpha, every fourth, is the same everywhere.
        const off = a.map((value, i) => Math.abs(value - (b[i] ?? 0)) / 255);
        return {
          worst: Math.max(...off),
          mean: (off.reduce((sum, one) => sum + one) / off.length) * (4 / 3),
        };
      },
      [urls, PATCH_PX, KEPT_SHARE] as const,
    );
  }
}

/** The pictures were taken with letters of these widths, in px: those of Liberation Sans, which are as wide as Arial's. */
const KEPT_LETTERS = { text: 'Quillfen Barn 14:35', size: 100, width: 856 };

/** Whether this machine has other letters: then every word stands elsewhere, and only what is gross can be told. */
export function hasOtherLetters(page: Page): Promise<boolean> {
  return page.evaluate(({ text, size, width }) => {
    const pen = document.createElement('canvas').getContext('2d');
    if (!pen) throw new Error('no canvas');
    pen.font = `${size}px ${getComputedStyle(document.body).fontFamily}`;
    return Math.abs(pen.measureText(text).width - width) > 1;
  }, KEPT_LETTERS);
}

const asUrl = (picture: Buffer, kind: string): string =>
  `data:image/${kind};base64,${picture.toString('base64')}`;
