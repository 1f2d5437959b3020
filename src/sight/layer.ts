/**
 * What a board can show from where people stand. Two layers: *work* at arm's length with everything on it, and *glance*
 * with the few facts that can be read from the doorway. What does not fit is said; no word is shrunk below the floor.
 */
import { EASY_ARC_MINUTES, FLOOR_ARC_MINUTES } from './angle.ts';
import type { Face } from './face.ts';
import { farthestFor, fitAt, type Fit } from './fits.ts';
import type { Panel } from './panel.ts';

/** Up to here people can touch the glass, and a page of ordinary type is read: about an arm and a step. */
export const WORK_METRES = 1.5;

/** A fact as it would stand on the panel: so many lines, the longest of so many letters. */
export type Block = { readonly rows: number; readonly letters: number };

export type Layer =
  | { readonly layer: 'work'; readonly fit: Fit }
  | {
      readonly layer: 'glance';
      readonly fit: Fit;
      /** Minutes of arc its capitals have: 20 where there is room, down to 16. */
      readonly arcMinutes: number;
      /** How many of the facts asked for are shown, in their order. */
      readonly facts: number;
    }
  | {
      readonly layer: 'tooFar';
      /** From how far the first fact can be read, in metres. */
      readonly readFrom: number;
      /** Corner to corner in mm: a panel of this shape that would show the first fact from where people stand. */
      readonly needsDiagonalMm: number;
    };

/**
 * Chooses what `panel` shows to people at `metres`. `facts` by weight: the first matters most. A fact is shown whole or not
 * at all: as many as fit, one under the other, at 20 minutes of arc; if not even the first fits there, at 16.
 */
export function chooseLayer(panel: Panel, face: Face, metres: number, facts: readonly Block[]): Layer {
  if (metres <= WORK_METRES) return { layer: 'work', fit: fitAt(panel, face, metres, EASY_ARC_MINUTES) };
  for (const arcMinutes of [EASY_ARC_MINUTES, FLOOR_ARC_MINUTES]) {
    const fit = fitAt(panel, face, metres, arcMinutes);
    const shown = howMany(facts, fit);
    if (shown > 0 || facts.length === 0) return { layer: 'glance', fit, arcMinutes, facts: shown };
  }
  const first = facts[0] ?? { rows: 1, letters: 1 };
  const readFrom = farthestFor(panel, face, first, FLOOR_ARC_MINUTES);
  const diagonal = Math.hypot(panel.width, panel.height) * panel.mmPerPx;
  return { layer: 'tooFar', readFrom, needsDiagonalMm: (diagonal * metres) / readFrom };
}

function howMany(facts: readonly Block[], fit: Fit): number {
  let rows = 0;
  let shown = 0;
  for (const fact of facts) {
    rows += fact.rows;
    if (rows > fit.rows || fact.letters > fit.letters) break;
    shown += 1;
  }
  return shown;
}
