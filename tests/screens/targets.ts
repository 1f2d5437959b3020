/** How large targets are on the glass, and how far apart, on a real page. */
import type { Page } from 'playwright';

/** What a tablet takes for granted before it is measured, in mm a CSS pixel. */
export const USUAL_MM_PER_PX = 0.18;

/** Fewest misses from here on: Chen et al. 2013, Applied Ergonomics. */
export const LEAST_MM = 20;

/** With targets of 20 mm, 1 mm or 3 mm between them made no difference: Chen et al. 2013. */
const LEAST_GAP_MM = 1;

/** Pairs of targets that are too near to each other. */
export function crowdedTargets(page: Page): Promise<string[]> {
  return page.evaluate(closeTargets, LEAST_GAP_MM / USUAL_MM_PER_PX);
}

/** Least gap in mm between a target of `one` and one of `other`, each in the same `within`; infinite where there is no such pair. */
export async function gapMm(page: Page, one: string, other: string, within = 'body'): Promise<number> {
  const px = await page.evaluate(
    ([a, b, holder]) => {
      const shown = (selector: string): Element[] =>
        [...document.querySelectorAll(selector)].filter((it) => it.checkVisibility());
      const gaps = shown(a).flatMap((p) =>
        shown(b)
          .filter((q) => q.closest(holder) === p.closest(holder))
          .map((q) => {
            const [r, s] = [p.getBoundingClientRect(), q.getBoundingClientRect()];
            return Math.max(r.left - s.right, s.left - r.right, r.top - s.bottom, s.top - r.bottom);
          }),
      );
      return Math.min(...gaps);
    },
    [one, other, within] as const,
  );
  return px * USUAL_MM_PER_PX;
}

/** Targets that a finger in a glove would miss. */
export function smallTargets(page: Page): Promise<string[]> {
  return page.evaluate(
    ([mmPerPx, least]) => {
      const root = document.querySelector('[data-dialog]') ?? document.body;
      return [...root.querySelectorAll('button, a[href], input, select, summary')].flatMap((one) => {
        // A label belongs to its field: a tap on it is one on the field.
        const { left, top, width, height } = (one.closest('label') ?? one).getBoundingClientRect();
        const mm = (px: number): number => Math.round(px * mmPerPx * 10) / 10;
        if (width === 0 || height === 0) return [];
        // To feel out how far a finger reaches is slow, and what is large enough by its own box needs none.
        if (Math.min(mm(width), mm(height)) >= least) return [];
        // A control may answer on more of the glass than its own box: how far from its middle a finger still meets it.
        const meets = (x: number, y: number): boolean => {
          const there = document.elementFromPoint(x, y);
          return there !== null && (one.closest('label') ?? one).contains(there);
        };
        const [x, y] = [left + width / 2, top + height / 2];
        const reach = (dx: number, dy: number): number => {
          let n = 0;
          while (meets(x + dx * (n + 1), y + dy * (n + 1))) n += 1;
          return n;
        };
        const met = meets(x, y)
          ? [reach(-1, 0) + reach(1, 0) + 1, reach(0, -1) + reach(0, 1) + 1]
          : [width, height];
        const [w, h] = [mm(Math.max(width, met[0] ?? 0)), mm(Math.max(height, met[1] ?? 0))];
        const name = [...one.attributes].find(({ name: key }) => key.startsWith('data-'));
        return Math.min(w, h) >= least
          ? []
          : [`${name?.name ?? one.className}=${name?.value ?? ''} ${w} × ${h} mm`];
      });
    },
    [USUAL_MM_PER_PX, LEAST_MM] as const,
  );
}

/** Pairs of targets nearer to each other than `least`, in CSS px. What opens a whole tile lies behind the others, and places on the drawing of a horse touch as they do on a horse: both are left out. */
function closeTargets(least: number): string[] {
  const root = document.querySelector('[data-dialog]') ?? document.body;
  const all = [...root.querySelectorAll<HTMLElement>('button, a[href], select')].filter(
    (one) =>
      one.checkVisibility() &&
      getComputedStyle(one, '::after').position !== 'absolute' &&
      !one.closest('.body'),
  );
  const name = (one: HTMLElement): string => (one.textContent ?? '').trim().slice(0, 20);
  return all.flatMap((a, i) =>
    all.slice(i + 1).flatMap((b) => {
      const [p, q] = [a.getBoundingClientRect(), b.getBoundingClientRect()];
      const dx = Math.max(p.left - q.right, q.left - p.right);
      const dy = Math.max(p.top - q.bottom, q.top - p.bottom);
      const isFixed = [a, b].some((one) => one.closest('header, footer, .notices') !== null);
      return Math.max(dx, dy) < least - 0.01 && !isFixed
        ? [`${name(a)} | ${name(b)}: ${Math.max(dx, dy)} px`]
        : [];
    }),
  );
}
