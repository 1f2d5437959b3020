/** How large the arena door's words must be to be read from where people stand, and from how far a panel serves. */
import type { Room } from '../grid.ts';

/** Height of a capital that is read with ease: NUREG-0700 rev 2 and ISO 9241-303 prefer 20 to 22 minutes of arc. */
const EASY_ARC_MINUTES = 20;

/** Height of a capital over the type size, for the sans serif faces a tablet has (measured: 0.69 to 0.71). */
const CAPITAL_OVER_SIZE = 0.7;

/** Width of a figure over the type size (measured: 0.55 to 0.58). */
const FIGURE_OVER_SIZE = 0.58;

/** The large minutes have this part of the panel's height, or two figures and a sign of this part of its width. */
const MINUTES_OF_HEIGHT = 0.5;
const MINUTES_OF_WIDTH = 0.46;
const MINUTES_FIGURES = 2;

/** Capital height in mm that spans the angle at this distance: h = 2 d tan(angle / 2). */
export function capitalMm(metres: number, arcMinutes = EASY_ARC_MINUTES): number {
  return 2 * metres * 1000 * Math.tan((arcMinutes / 60 / 2) * (Math.PI / 180));
}

/** Type size in CSS pixels whose capitals are read with ease from `metres`. */
export function typePx(metres: number, mmPerPx: number): number {
  return capitalMm(metres) / CAPITAL_OVER_SIZE / mmPerPx;
}

/** The largest size the minutes can have on a panel of this room, in CSS pixels. */
export function largestMinutesPx({ width, height }: Room): number {
  return Math.min(
    height * MINUTES_OF_HEIGHT,
    (width * MINUTES_OF_WIDTH) / (MINUTES_FIGURES * FIGURE_OVER_SIZE),
  );
}

/** From how far the minutes can be read with ease on this panel, in metres. */
export function farthestMetres(room: Room, mmPerPx: number): number {
  return largestMinutesPx(room) / typePx(1, mmPerPx);
}
