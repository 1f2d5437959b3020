/** A tablet's glass in millimetres, and what a pixel of the page is on it. */

const MM_AN_INCH = 25.4;

/** ISO/IEC 7810 ID-1, the size of a bank card, in mm: what a panel is calibrated with. */
export const CARD_MM = { width: 85.6, height: 53.98 } as const;

/** The part of the glass a board draws on, in CSS pixels, and how many millimetres one of them is. */
export type Panel = { readonly width: number; readonly height: number; readonly mmPerPx: number };

/** Pixels an inch of a panel of `width` by `height` device pixels and `inches` from corner to corner. */
export function pixelsAnInch(width: number, height: number, inches: number): number {
  return Math.hypot(width, height) / inches;
}

/** Millimetres a CSS pixel has on a panel of `ppi` device pixels an inch, `ratio` of them a CSS pixel. */
export function mmPerCssPx(ppi: number, ratio: number): number {
  return (MM_AN_INCH * ratio) / ppi;
}

/** Millimetres a CSS pixel has, by how wide in CSS pixels an outline was made that a bank card covers exactly. */
export function mmPerPxOfCard(cardPx: number): number {
  return CARD_MM.width / cardPx;
}
