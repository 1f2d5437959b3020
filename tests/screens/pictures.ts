/**
 * Takes pictures of the invented barn at a set minute of its afternoon.
 *
 *   npm run pictures               those of the README, into demo/pictures
 *   npm run pictures -- all        every screen and sheet, by day and by night, both ways up, in both languages, into
 *                                  demo/pictures/all (kept out of git); and as an eye sees the glance screens from 8 m
 *   npm run pictures -- all door   only those whose name begins so
 *   npm run pictures -- keep       the small ones that tests hold screens against
 */
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright';
import { capitalMm } from '#core/sight/angle.ts';
import { launch, LANDSCAPE, PORTRAIT } from './browser.ts';
import { Darkroom, everyWay, fileName, KEPT, LOOKED_AT_IN } from './kept.ts';
import {
  AISLE_STATES,
  ALL_STATES,
  DESK_STATES,
  DOOR_STATES,
  SeenBarns,
  show,
  tablet,
  type Look,
  type Seen,
} from './seen.ts';

const FOLDER = fileURLToPath(new URL('../../demo/pictures', import.meta.url));
const ALL = join(FOLDER, 'all');

type Take = (taken: Buffer, set: string, seen: Seen) => Promise<void>;

/** The first forecast has come by then, and what is fetched after the first picture. */
const SETTLED_MS = 2500;

/** The door is read from here, and the aisle's words from its far end. */
const FAR_METRES = 8;

/** What a tablet takes for granted before it is measured, in mm a CSS pixel. */
const USUAL_MM_PER_PX = 0.18;

/** Screens that are read from afar, too. */
const GLANCED_AT = ['aisle', 'aisle troubled', 'door', 'door troubled'];

const VIEWPORTS = [LANDSCAPE, PORTRAIT];
const barns = new SeenBarns();
const browser = await launch();
const [what = '', begins = ''] = process.argv.slice(2);
await (what === 'all' ? all() : what === 'keep' ? keep() : forReadme());
await browser.close();
await barns.clear();

async function forReadme(): Promise<void> {
  const chosen: readonly (readonly [string, Seen | undefined])[] = [
    ['aisle', AISLE_STATES[0]],
    ['feet', AISLE_STATES.find(({ name }) => name === 'aisle feet, one wrong')],
    ['door', DOOR_STATES[0]],
    ['coordinator', DESK_STATES[0]],
  ];
  for (const [name, seen] of chosen) {
    if (!seen) throw new Error(`no state for ${name}`);
    for (const viewport of VIEWPORTS) {
      await picture(seen, viewport, { theme: 'day', language: 'en' }, (page) =>
        page.screenshot({ path: join(FOLDER, `${name}-${viewport.width}x${viewport.height}.png`) }),
      );
    }
  }
}

async function all(): Promise<void> {
  if (begins === '') rmSync(ALL, { recursive: true, force: true });
  await each(
    ALL_STATES.filter(({ name }) => name.startsWith(begins)),
    intoFolder,
  );
}

async function keep(): Promise<void> {
  const darkroom = new Darkroom(browser);
  await each(KEPT, (taken, set, seen) => darkroom.keep(taken, set, seen));
}

async function each(states: readonly Seen[], take: Take): Promise<void> {
  const left = states.flatMap((seen) => LOOKED_AT_IN.map((language) => ({ seen, language })));
  const worker = async (): Promise<void> => {
    for (let next = left.shift(); next; next = left.shift())
      await takeEveryWay(next.seen, next.language, take);
  };
  await Promise.all([worker(), worker()]);
}

/** One state in one language, both ways up, by day and by night. */
async function takeEveryWay(seen: Seen, language: string, take: Take): Promise<void> {
  await picture(seen, LANDSCAPE, { theme: 'day', language }, (page) =>
    everyWay(page, language, async (set) => take(await page.screenshot(), set, seen)),
  );
}

async function intoFolder(taken: Buffer, set: string, seen: Seen): Promise<void> {
  const into = join(ALL, set);
  mkdirSync(into, { recursive: true });
  const path = join(into, `${fileName(seen)}.png`);
  writeFileSync(path, taken);
  if (GLANCED_AT.includes(seen.name)) await asSeenFromAfar(taken, path);
}

async function picture(
  seen: Seen,
  viewport: { width: number; height: number },
  look: Look,
  take: (page: Page) => Promise<unknown>,
): Promise<void> {
  const page = await tablet(browser, seen, viewport, look);
  try {
    if (!(await show(page, await barns.url(seen), seen))) return;
    await page.waitForTimeout(SETTLED_MS);
    await take(page);
  } catch (error) {
    console.error(`${seen.name}: ${String(error).split('\n')[0]}`);
  } finally {
    await page.context().close();
  }
}

/** The picture with no more in it than an eye of 20/20 makes out from there: two points to a minute of arc, made large again. */
async function asSeenFromAfar(taken: Buffer, path: string): Promise<void> {
  const pxAMinute = capitalMm(FAR_METRES, 1) / USUAL_MM_PER_PX;
  const page = await browser.newPage();
  const source = `data:image/png;base64,${taken.toString('base64')}`;
  await page.setContent(`<body style="margin:0"><img src="${source}" style="display:block">`);
  const size = await page.locator('img').evaluate(async (image: HTMLImageElement, pxAPoint) => {
    await image.decode();
    const { naturalWidth: width, naturalHeight: height } = image;
    const drawn = (of: CanvasImageSource, w: number, h: number): HTMLCanvasElement => {
      const canvas = document.createElement('canvas');
      Object.assign(canvas, { width: w, height: h });
      const pen = canvas.getContext('2d');
      if (pen) pen.imageSmoothingQuality = 'high';
      pen?.drawImage(of, 0, 0, w, h);
      return canvas;
    };
    const far = drawn(image, Math.round(width / pxAPoint), Math.round(height / pxAPoint));
    image.replaceWith(drawn(far, width, height));
    return { width, height };
  }, pxAMinute / 2);
  await page.setViewportSize(size);
  await page.screenshot({ path: path.replace('.png', `-from-${FAR_METRES}-m.png`) });
  await page.close();
}
