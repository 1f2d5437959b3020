/** Text that sticks out of what it stands in, is cut off, or lies over other text: measured on a page. */
import type { Page } from 'playwright';

export type Strictness = {
  /** Text cut short with dots counts as lost: there is room to be had. */
  readonly withDots: boolean;
};

/** What is wrong with the text of what is shown: the topmost sheet, else the page. */
export function cutText(page: Page, { withDots }: Strictness): Promise<string[]> {
  return page.evaluate((strict) => {
    const open = [...document.querySelectorAll('[data-dialog]')].at(-1);
    const root: Element = open ?? document.body;
    // A lane's time line cuts the name of a bar as short as its work, and its hours stand over their ends.
    const skipped = '.track, .scale, .only-spoken, #svelte-announcer, svg, select, canvas, .uplot';
    const all = [...root.querySelectorAll<HTMLElement>('*')].filter(
      (one) => !one.closest(skipped) && one.checkVisibility() && (one.textContent ?? '').trim() !== '',
    );
    const named = (one: HTMLElement): string =>
      `${one.tagName.toLowerCase()}.${one.className} “${(one.textContent ?? '').trim().replaceAll(/\s+/g, ' ').slice(0, 40)}”`;
    const found: string[] = [];
    for (const one of all) {
      const style = getComputedStyle(one);
      if (style.display === 'inline' || style.display === 'contents') continue;
      const dots = style.textOverflow === 'ellipsis' || style.webkitLineClamp !== 'none';
      const scrolls = /auto|scroll/.test(style.overflowX) || /auto|scroll/.test(style.overflowY);
      if (dots && !strict) continue;
      if (!scrolls && one.scrollWidth > one.clientWidth + 1 && one.clientWidth > 0)
        found.push(`wide ${one.scrollWidth}>${one.clientWidth}: ${named(one)}`);
      // The door's figure stands in a line lower than its letters' own box.
      else if (
        !one.matches('.glance') &&
        /hidden|clip/.test(style.overflowY) &&
        one.scrollHeight > one.clientHeight + 2
      )
        found.push(`cut ${one.scrollHeight}>${one.clientHeight}: ${named(one)}`);
    }
    // Words over each other, as they are drawn: more than lines of a tight heading touch.
    const isScrolledAway = (one: Element, box: DOMRect): boolean => {
      for (let up: Element | null = one; up && up !== document.body; up = up.parentElement) {
        if (getComputedStyle(up).overflowY === 'visible') continue;
        const { top, bottom } = up.getBoundingClientRect();
        if (box.top >= bottom - 2 || box.bottom <= top + 2) return true;
      }
      return false;
    };
    const texts = document.createTreeWalker(root, NodeFilter.SHOW_TEXT);
    const lines: { one: HTMLElement; box: DOMRect }[] = [];
    for (let node = texts.nextNode(); node; node = texts.nextNode()) {
      const one = node.parentElement;
      if (!one || !node.textContent?.trim() || !one.checkVisibility()) continue;
      if (one.closest(`${skipped}, .figure, .letter`)) continue;
      const range = document.createRange();
      range.selectNodeContents(node);
      for (const box of range.getClientRects())
        if (box.width > 4 && !isScrolledAway(one, box)) lines.push({ one, box });
    }
    const isStuck = (one: Element): boolean => {
      for (let up: Element | null = one; up; up = up.parentElement)
        if (/sticky|fixed/.test(getComputedStyle(up).position)) return true;
      return false;
    };
    for (const [i, a] of lines.entries()) {
      for (const b of lines.slice(i + 1)) {
        if (a.one === b.one) continue;
        const w = Math.min(a.box.right, b.box.right) - Math.max(a.box.left, b.box.left);
        const h = Math.min(a.box.bottom, b.box.bottom) - Math.max(a.box.top, b.box.top);
        if (w > 3 && h > 0.4 * Math.min(a.box.height, b.box.height) && !isStuck(a.one) && !isStuck(b.one))
          found.push(`over each other: ${named(a.one)} and ${named(b.one)}`);
      }
    }
    return found;
  }, withDots);
}

/** Words of what is shown whose letters stand on more than one line: broken without a hyphen, because they are too long for their place. */
export function brokenWords(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const root = [...document.querySelectorAll('[data-dialog]')].at(-1) ?? document.body;
    const texts = document.createTreeWalker(root, NodeFilter.SHOW_TEXT);
    const found: string[] = [];
    for (let node = texts.nextNode(); node; node = texts.nextNode()) {
      const text = node.textContent ?? '';
      if (!node.parentElement?.checkVisibility() || node.parentElement.closest('.only-spoken, svg, select'))
        continue;
      for (const { 0: word, index } of text.matchAll(/[\p{L}\p{N}]+/gu)) {
        const range = document.createRange();
        range.setStart(node, index);
        range.setEnd(node, index + word.length);
        if (new Set([...range.getClientRects()].map(({ top }) => Math.round(top))).size > 1) found.push(word);
      }
    }
    return found;
  });
}
