/** Which layer a panel shows, and that what does not fit is said and never shrunk. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { arcMinutesOf } from '#core/sight/angle.ts';
import { USUAL_FACE } from '#core/sight/face.ts';
import { fitAt } from '#core/sight/fits.ts';
import { chooseLayer, type Block } from '#core/sight/layer.ts';
import type { Panel } from '#core/sight/panel.ts';

/** About 218 × 136 mm: a 10-inch tablet. */
const TEN_INCH: Panel = { width: 1280, height: 800, mmPerPx: 0.17 };
const MINUTES: Block = { rows: 1, letters: 3 };
const WORD: Block = { rows: 1, letters: 7 };

describe('a ten-inch tablet', () => {
  it('shows the work layer at arm’s length', () => {
    expect(chooseLayer(TEN_INCH, USUAL_FACE, 0.5, [MINUTES]).layer).toBe('work');
    expect(chooseLayer(TEN_INCH, USUAL_FACE, 1.5, [MINUTES]).layer).toBe('work');
  });

  it('shows both facts at 6 m and only the minutes at 9 m', () => {
    expect(chooseLayer(TEN_INCH, USUAL_FACE, 6, [MINUTES, WORD])).toMatchObject({
      layer: 'glance',
      facts: 2,
    });
    expect(chooseLayer(TEN_INCH, USUAL_FACE, 9, [MINUTES, WORD])).toMatchObject({
      layer: 'glance',
      facts: 1,
    });
  });

  it('goes down to 16 minutes of arc before it gives up, and then says from how far it reads', () => {
    const closer = chooseLayer(TEN_INCH, USUAL_FACE, 12, [{ rows: 1, letters: 4 }]);
    expect(closer).toMatchObject({ layer: 'glance', arcMinutes: 16 });
    const tooFar = chooseLayer(TEN_INCH, USUAL_FACE, 25, [MINUTES]);
    if (tooFar.layer !== 'tooFar') throw new Error(tooFar.layer);
    expect(tooFar.readFrom).toBeGreaterThan(12);
    expect(tooFar.readFrom).toBeLessThan(25);
    const larger = {
      ...TEN_INCH,
      mmPerPx: (TEN_INCH.mmPerPx * tooFar.needsDiagonalMm * 1.001) / (Math.hypot(1280, 800) * 0.17),
    };
    expect(chooseLayer(larger, USUAL_FACE, 25, [MINUTES]).layer).toBe('glance');
  });
});

describe('any panel', () => {
  const panels = fc.record({
    width: fc.integer({ min: 320, max: 3840 }),
    height: fc.integer({ min: 320, max: 3840 }),
    mmPerPx: fc.double({ min: 0.08, max: 0.5, noNaN: true }),
  });
  const blocks = fc.array(
    fc.record({ rows: fc.integer({ min: 1, max: 3 }), letters: fc.integer({ min: 1, max: 20 }) }),
    {
      minLength: 1,
      maxLength: 4,
    },
  );
  const metres = fc.double({ min: 1.6, max: 30, noNaN: true });

  it('never shows a capital under 16 minutes of arc, and what it shows lies on the glass', () => {
    fc.assert(
      fc.property(panels, blocks, metres, (panel, facts, d) => {
        const chosen = chooseLayer(panel, USUAL_FACE, d, facts);
        if (chosen.layer !== 'glance') return;
        expect(arcMinutesOf(chosen.fit.capitalMm, d)).toBeGreaterThanOrEqual(16 - 1e-9);
        const shown = facts.slice(0, chosen.facts);
        const rows = shown.reduce((sum, fact) => sum + fact.rows, 0);
        expect(rows * chosen.fit.typePx * USUAL_FACE.line).toBeLessThanOrEqual(panel.height);
        for (const { letters } of shown)
          expect(letters * chosen.fit.typePx * USUAL_FACE.advance).toBeLessThanOrEqual(panel.width);
      }),
    );
  });

  it('shows no less from nearer, and "too far" is true just beyond the distance it names and not just before it', () => {
    fc.assert(
      fc.property(panels, blocks, metres, (panel, facts, d) => {
        const chosen = chooseLayer(panel, USUAL_FACE, d, facts);
        const nearer = chooseLayer(panel, USUAL_FACE, d * 0.9, facts);
        if (chosen.layer === 'glance' && nearer.layer === 'glance')
          expect(
            nearer.facts * (nearer.arcMinutes === chosen.arcMinutes ? 1 : Infinity),
          ).toBeGreaterThanOrEqual(chosen.facts);
        if (chosen.layer !== 'tooFar') return;
        const first = facts.slice(0, 1);
        expect(chooseLayer(panel, USUAL_FACE, chosen.readFrom * 0.999, first).layer).not.toBe('tooFar');
        if (chosen.readFrom * 1.001 > 1.5)
          expect(chooseLayer(panel, USUAL_FACE, chosen.readFrom * 1.001, first).layer).toBe('tooFar');
      }),
    );
  });

  it('holds no more from farther away', () => {
    fc.assert(
      fc.property(panels, metres, (panel, d) => {
        const near = fitAt(panel, USUAL_FACE, d, 20);
        const far = fitAt(panel, USUAL_FACE, d * 1.1, 20);
        expect(far.rows).toBeLessThanOrEqual(near.rows);
        expect(far.letters).toBeLessThanOrEqual(near.letters);
        expect(far.typePx).toBeGreaterThan(near.typePx);
      }),
    );
  });
});
