/** What a wall may say about a verdict without giving a rider away. */

/**
 * One code for every kind of "no": load, rider cap, clearance and tack all read the same, so nobody can tell
 * from the wall which it was.
 */
export type AisleReason = 'fits' | 'not-this-pair' | 'ask-instructor';

/**
 * Reduces a verdict to what the aisle may know. It takes the kind alone, so figures cannot pass.
 * Principle: limit by role, as in 45 CFR 164.502(b), and GDPR Art. 5(1)(c), data minimisation.
 */
export function reasonForAisle(kind: 'fits' | 'does-not-fit' | 'cannot-say'): AisleReason {
  switch (kind) {
    case 'fits':
      return 'fits';
    case 'does-not-fit':
      return 'not-this-pair';
    case 'cannot-say':
      return 'ask-instructor';
  }
}
