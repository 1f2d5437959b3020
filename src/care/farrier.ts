/** When the farrier is due. */
import type { FarrierRules } from './farrierRules.ts';
import { addWorkingDays, daysBetween, type BadDate } from './civilDate.ts';
import { cannotSay, type CannotSay } from './figures.ts';

const DAYS_PER_WEEK = 7;

export interface FarrierState {
  readonly kind: 'fine' | 'due-soon' | 'due';
  readonly daysSince: number;
  /** Negative when overdue. */
  readonly daysUntilDue: number;
}

/**
 * How long since shoes or trim, against the barn's weeks: warned from the day 6 weeks are full (day 42), due from
 * day 56. Sources: intervals of 6-8 weeks (Hill), 4-8 (EQUUS), 4-14 with 6-10 on average (EquiMed).
 *
 * @param lastDone 'YYYY-MM-DD' of shoeing or trim, null when unknown
 */
export function farrierState(
  rules: FarrierRules,
  lastDone: string | null,
  today: string,
): FarrierState | CannotSay<BadDate | { readonly code: 'no-date' | 'date-to-come' }> {
  if (lastDone === null) return cannotSay({ code: 'no-date' });
  const daysSince = daysBetween(lastDone, today);
  if (typeof daysSince !== 'number') return cannotSay(daysSince);
  if (daysSince < 0) return cannotSay({ code: 'date-to-come' });
  const dueDay = rules.dueAtWeeks * DAYS_PER_WEEK;
  const kind =
    daysSince >= dueDay ? 'due' : daysSince >= rules.warnAtWeeks * DAYS_PER_WEEK ? 'due-soon' : 'fine';
  return { kind, daysSince, daysUntilDue: dueDay - daysSince };
}

/** The day a farrier may be expected by after a call. The hold ends by a named release, never by this date. */
export function farrierExpectedBy(rules: FarrierRules, calledOn: string): string | CannotSay<BadDate> {
  const date = addWorkingDays(calledOn, rules.visitWorkingDays);
  return typeof date === 'string' ? date : cannotSay(date);
}
