/** Who may lift a hold. A pulled horse comes back by name only. */
import type { Hold } from './advise.ts';

/** Who says the horse may work again, as a person at the board enters it. */
export interface ReleaseWord {
  /** Who enters it. */
  readonly enteredBy: 'instructor' | 'coordinator' | 'volunteer';
  /** Whose judgement it is. */
  readonly wordOf: 'instructor' | 'coordinator' | 'farrier' | 'vet';
  /** Name of the one whose judgement it is. */
  readonly name: string;
}

export type ReleaseVerdict =
  | { readonly kind: 'released'; readonly holds: readonly Hold[] }
  | {
      readonly kind: 'refused';
      readonly because: 'needs-a-name' | 'not-yours-to-enter' | 'no-such-hold';
    };

/**
 * Which of a horse's holds this word lifts. The vet's word lifts a vet's hold only, the farrier's a farrier's only;
 * an instructor's or coordinator's lifts an instructor's. The rest stay.
 * Source for the vet's: model conditions of the Riding Establishments Acts 1964 and 1970: no work until certified
 * fit. The others: common practice, no source.
 */
export function release(holds: readonly Hold[], word: ReleaseWord): ReleaseVerdict {
  if (word.enteredBy === 'volunteer') return { kind: 'refused', because: 'not-yours-to-enter' };
  if (word.name.trim() === '') return { kind: 'refused', because: 'needs-a-name' };
  const lifted: Hold = word.wordOf === 'coordinator' ? 'until-instructor' : `until-${word.wordOf}`;
  if (!holds.includes(lifted)) return { kind: 'refused', because: 'no-such-hold' };
  return { kind: 'released', holds: [lifted] };
}
