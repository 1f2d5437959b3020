import { expect, test } from 'vitest';
import { Redraw, REDRAW_EVERY_MS } from '../../../kiosk/src/lib/state/redraw.ts';

/** A page whose clock, timers and frames move only when told to. */
function page() {
  let now = 0;
  let timers: { at: number; run: () => void }[] = [];
  let frames: (() => void)[] = [];
  const drawnAt: number[] = [];
  const parts = { hidden: false };
  const redraw = new Redraw(() => void drawnAt.push(now), {
    mono: () => now,
    after: (ms, run) => void timers.push({ at: now + ms, run }),
    beforePaint: (run) => void frames.push(run),
    isHidden: () => parts.hidden,
  });
  const frame = (): void => {
    const due = frames;
    frames = [];
    for (const run of due) run();
  };
  const pass = (ms: number): void => {
    now += ms;
    const due = timers.filter(({ at }) => at <= now);
    timers = timers.filter(({ at }) => at > now);
    for (const { run } of due) run();
    frame();
  };
  return { redraw, parts, frame, pass, drawnAt };
}

test('the first is drawn before the next paint, and what follows it at most every so often', () => {
  const { redraw, frame, pass, drawnAt } = page();
  redraw.soon();
  redraw.soon();
  expect(drawnAt).toEqual([]);
  frame();
  expect(drawnAt).toEqual([0]);
  for (let i = 0; i < 20; i += 1) {
    redraw.soon();
    pass(50);
  }
  expect(drawnAt).toEqual([0, 200, 400, 600, 800, 1000]);
  pass(REDRAW_EVERY_MS);
  expect(drawnAt).toHaveLength(6);
});

test('what is drawn at once is not drawn again by what had been waiting', () => {
  const { redraw, frame, pass, drawnAt } = page();
  redraw.soon();
  frame();
  pass(10);
  redraw.soon();
  redraw.now();
  expect(drawnAt).toEqual([0, 10]);
  pass(1000);
  expect(drawnAt).toEqual([0, 10]);
});

test('a page that is hidden does not wait for a paint that never comes', () => {
  const { redraw, parts, drawnAt } = page();
  parts.hidden = true;
  redraw.soon();
  redraw.soon();
  expect(drawnAt).toEqual([0, 0]);
});
