/** Figures from outside: which are usable, and how a refusal is said. */

/** A figure that cannot be used, with the range it had to lie in (same unit as the figure's name says). */
export interface BadFigure {
  readonly code: 'bad-figure';
  readonly figure: string;
  readonly value: number;
  readonly lowest: number;
  readonly highest: number;
}

/** The rule was asked and has no answer; never to be read as a yes. */
export interface CannotSay<Reason> {
  readonly kind: 'cannot-say';
  readonly reason: Reason;
}

/** Builds the third answer beside "fits" and "does not fit". */
export function cannotSay<const Reason>(reason: Reason): CannotSay<Reason> {
  return { kind: 'cannot-say', reason };
}

/**
 * Checks one figure. NaN and the infinities are outside every range.
 *
 * @returns null when `lowest <= value <= highest`, else the refusal
 */
export function badFigure(figure: string, value: number, lowest: number, highest: number): BadFigure | null {
  if (Number.isFinite(value) && value >= lowest && value <= highest) return null;
  return { code: 'bad-figure', figure, value, lowest, highest };
}

/**
 * How far a figure may be trusted.
 * A: peer-reviewed, government or national body. B: association, veterinary practice, university programme or an
 * accredited centre's own policy. C: trade press and general web. `memory`: known, not looked up.
 * `none`: common practice or a choice made here, no source.
 */
export type Grade = 'A' | 'B' | 'C' | 'memory' | 'none';

/** Where a figure comes from. */
export interface Sourced {
  readonly source: string;
  readonly grade: Grade;
}
