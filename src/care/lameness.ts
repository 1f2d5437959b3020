/** Lameness as graded by a qualified person. A grade of its own type: it is never mixed with another scale. */
import type { AaepGrade, LamenessRules } from './lamenessRules.ts';

export type LamenessAdvice = 'none-seen' | 'off-today' | 'call-now';

/** Reads a number as an AAEP grade; null for anything but a whole number 0 to 5. */
export function aaepGrade(value: number): AaepGrade | null {
  return Number.isInteger(value) && value >= 0 && value <= 5 ? (value as AaepGrade) : null;
}

/** What a grade means for today's work. The grade itself is a qualified person's judgement. */
export function adviseLameness(rules: LamenessRules, grade: AaepGrade): LamenessAdvice {
  if (grade >= rules.vetFromGrade) return 'call-now';
  if (grade >= rules.offFromGrade) return 'off-today';
  return 'none-seen';
}
