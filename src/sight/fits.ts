/** How many lines, and letters in a line, a panel holds at a size that can be read from where people stand. */
import { capitalMm, farthestMetres } from './angle.ts';
import { typeMm, type Face } from './face.ts';
import type { Panel } from './panel.ts';

export type Fit = {
  readonly rows: number;
  readonly letters: number;
  /** Size of the type in CSS pixels, and of its capitals in mm. */
  readonly typePx: number;
  readonly capitalMm: number;
};

/** Share of the glass that words can stand on, each way; the rest is margin. */
export const USABLE = 0.94;

/** What fits on `panel` at `arcMinutes` from `metres`. Zero rows or letters: not even one does. */
export function fitAt(panel: Panel, face: Face, metres: number, arcMinutes: number): Fit {
  const capital = capitalMm(metres, arcMinutes);
  const size = typeMm(face, capital);
  return {
    rows: Math.floor((panel.height * panel.mmPerPx * USABLE) / (size * face.line)),
    letters: Math.floor((panel.width * panel.mmPerPx * USABLE) / (size * face.advance)),
    typePx: size / panel.mmPerPx,
    capitalMm: capital,
  };
}

/** From how far, in metres, `rows` lines of `letters` letters can still be read on `panel`. */
export function farthestFor(
  panel: Panel,
  face: Face,
  block: { readonly rows: number; readonly letters: number },
  arcMinutes: number,
): number {
  const size = Math.min(
    (panel.height * panel.mmPerPx * USABLE) / (block.rows * face.line),
    (panel.width * panel.mmPerPx * USABLE) / (block.letters * face.advance),
  );
  return farthestMetres(size * face.capital, arcMinutes);
}
