/** How long a riding helmet serves. */
import type { HelmetRules, HelmetKept } from './helmetRules.ts';
import { addYears, daysBetween, type BadDate } from './civilDate.ts';
import { cannotSay, type CannotSay } from './figures.ts';

export type HelmetState =
  | { readonly kind: 'in-use' | 'due-soon'; readonly daysLeft: number }
  | { readonly kind: 'replace'; readonly because: 'knock' | 'age' };

/**
 * Whether a helmet may be used today. Out from the fifth anniversary of its purchase (day 1826 with one leap day
 * between), and at once after a fall in which it was hit, whatever its age.
 * Source: EquiMed 2016; ASTM F1163 is the standard to look for on the label.
 */
export function helmetState(
  rules: HelmetRules,
  helmet: HelmetKept,
  today: string,
): HelmetState | CannotSay<BadDate | { readonly code: 'no-date' | 'date-to-come' }> {
  if (helmet.knocked) return { kind: 'replace', because: 'knock' };
  if (helmet.boughtOn === null) return cannotSay({ code: 'no-date' });
  const age = daysBetween(helmet.boughtOn, today);
  if (typeof age !== 'number') return cannotSay(age);
  if (age < 0) return cannotSay({ code: 'date-to-come' });
  const end = addYears(helmet.boughtOn, rules.years);
  if (typeof end !== 'string') return cannotSay(end);
  const daysLeft = daysBetween(today, end);
  if (typeof daysLeft !== 'number') return cannotSay(daysLeft);
  if (daysLeft <= 0) return { kind: 'replace', because: 'age' };
  return { kind: daysLeft <= rules.warnDays ? 'due-soon' : 'in-use', daysLeft };
}
