/** Keeping what is on one horse off the next: kits of their own, and days apart for newcomers. */
import * as z from 'zod/mini';
import { daysBetween, type BadDate } from './civilDate.ts';
import { cannotSay, type CannotSay } from './figures.ts';

export const IsolationRules = z.object({
  /** Days a new horse stays apart. */
  quarantineDays: z._default(z.int().check(z.minimum(7), z.maximum(60)), 21),
  /** Warn about any kit two horses share, or only where skin infection or quarantine is on record. */
  warnOfSharedKit: z._default(z.enum(['any-two-horses', 'isolated-only']), 'any-two-horses'),
});
export type IsolationRules = z.infer<typeof IsolationRules>;

/** Who uses which kit today: halter, brushes, pads, girth, bridle, as the barn has named it. */
export interface KitUse {
  readonly kitId: string;
  readonly horseId: string;
}

export interface KitWarning {
  /** 'isolated-kit-shared': one of the horses must have its own kit only. */
  readonly code: 'isolated-kit-shared' | 'kit-shared';
  readonly kitId: string;
  /** In the order they first appear. */
  readonly horseIds: readonly string[];
}

/**
 * Kits that more than one horse uses. Worst first.
 * Sources: own halter, lead, grooming tools and tack for each horse, disinfected before use on another
 * (The Horse; Colorado State Univ.); tools and tack carry skin infection (Equine Disease Communication Center).
 */
export function sharedKits(
  rules: IsolationRules,
  uses: readonly KitUse[],
  ownKitOnly: ReadonlySet<string>,
): readonly KitWarning[] {
  const byKit = new Map<string, string[]>();
  for (const { kitId, horseId } of uses) {
    const horses = byKit.get(kitId) ?? [];
    if (!horses.includes(horseId)) horses.push(horseId);
    byKit.set(kitId, horses);
  }
  const shared: KitWarning[] = [];
  for (const [kitId, horseIds] of byKit) {
    if (horseIds.length < 2) continue;
    const isolated = horseIds.some((id) => ownKitOnly.has(id));
    if (isolated) shared.push({ code: 'isolated-kit-shared', kitId, horseIds });
    else if (rules.warnOfSharedKit === 'any-two-horses') shared.push({ code: 'kit-shared', kitId, horseIds });
  }
  return shared.sort((a, b) => a.code.localeCompare(b.code));
}

export interface Quarantine {
  /** 'days-done' frees nobody: a named release does. */
  readonly kind: 'apart' | 'days-done';
  readonly daysSince: number;
  readonly daysLeft: number;
}

/**
 * Where a newcomer's days apart stand. Counted from the day of arrival as day 0; done on day 21.
 * Source: 2-3 weeks (Michigan State Univ. CVM; HBLB Codes of Practice); the longer end is the default.
 */
export function quarantine(
  rules: IsolationRules,
  arrivedOn: string,
  today: string,
): Quarantine | CannotSay<BadDate | { readonly code: 'date-to-come' }> {
  const daysSince = daysBetween(arrivedOn, today);
  if (typeof daysSince !== 'number') return cannotSay(daysSince);
  if (daysSince < 0) return cannotSay({ code: 'date-to-come' });
  const daysLeft = Math.max(0, rules.quarantineDays - daysSince);
  return { kind: daysLeft > 0 ? 'apart' : 'days-done', daysSince, daysLeft };
}
