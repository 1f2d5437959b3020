/**
 * Sheets laid over a screen. What lies beneath is shut off for fingers (they meet the sheet's own ground), for screen readers
 * (hidden from them) and for keys (the focus goes back to the sheet), as under the browser's own modal dialog; but not by
 * `inert`, for which a browser works out the style of each element beneath anew, 25 to 40 ms of a cheap tablet.
 */
import { afterPaint } from '../link/browser.ts';

type Layer = { readonly sheet: HTMLElement; readonly opener: Element | null; readonly leave: () => void };

const layers: Layer[] = [];
/** Who gets the focus back at the next settling. */
let leaving: Element | null = null;
let isSettling = false;
let waiting: readonly (() => void)[] = [];

/** Lays `sheet` over everything, at the end of the page's body, and gives it the focus; Escape leaves it. Returns how to take it away. */
export function layOver(sheet: HTMLElement, leave: () => void): () => void {
  // One sheet after another: whoever opened the first.
  const layer = { sheet, opener: leaving ?? document.activeElement, leave };
  if (layers.length === 0) {
    document.addEventListener('keydown', escape);
    document.addEventListener('focusin', keepOnTop);
  }
  document.body.append(sheet);
  layers.push(layer);
  focusIn(sheet);
  settleAfterPaint();
  return () => {
    sheet.remove();
    layers.splice(layers.indexOf(layer), 1);
    if (layers.length === 0) {
      document.removeEventListener('keydown', escape);
      document.removeEventListener('focusin', keepOnTop);
    }
    leaving = layer.opener;
    settleAfterPaint();
  };
}

/** Once no sheet lies over the page and it can take the focus again. Returns how to call it off. */
export function whenUncovered(run: () => void): () => void {
  waiting = [...waiting, run];
  settleAfterPaint();
  return () => (waiting = waiting.filter((one) => one !== run));
}

/** Wherever the focus is: on a sheet it can get lost, with a control that is gone. */
function escape(event: KeyboardEvent): void {
  if (event.key !== 'Escape' || event.defaultPrevented) return;
  event.preventDefault();
  layers.at(-1)?.leave();
}

/** What is hidden beneath the uppermost sheet gives back the focus that came to it; what stands over all keeps it. */
function keepOnTop({ target }: FocusEvent): void {
  const top = layers.at(-1)?.sheet;
  if (top && target instanceof Element && target.closest('[aria-hidden="true"]')) focusIn(top);
}

function focusIn(sheet: HTMLElement): void {
  (sheet.querySelector<HTMLElement>('[autofocus]') ?? sheet.querySelector('button'))?.focus();
}

function settleAfterPaint(): void {
  if (isSettling) return;
  isSettling = true;
  afterPaint(settle);
}

/** Everything beneath the uppermost sheet is shut off, and what is no longer beneath one is not. */
function settle(): void {
  isSettling = false;
  const top = layers.at(-1);
  const page = document.querySelector<HTMLElement>('[data-page]');
  for (const { sheet } of layers) hide(sheet, sheet !== top?.sheet);
  if (page) hide(page, top !== undefined);
  const isFree = document.activeElement === document.body || document.activeElement === null;
  if (isFree && leaving instanceof HTMLElement && leaving.isConnected) leaving.focus({ preventScroll: true });
  leaving = null;
  if (top) return;
  const due = waiting;
  waiting = [];
  for (const run of due) run();
}

function hide(beneath: HTMLElement, isHidden: boolean): void {
  if (isHidden) beneath.ariaHidden = 'true';
  else beneath.removeAttribute('aria-hidden');
}
