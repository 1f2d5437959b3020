/**
 * What a stand-in is asked for with and answered by. Instants in ms since 1970, `minutes` whole unless said otherwise,
 * weights in kg. Reasons and blocks carry a rider's figures: they are the coordinator's; a door gets `forDoor`.
 */
import type { Hold } from '../../barn/horse.ts';
import type { Stage } from '../../barn/stage.ts';
import type { AdviceLevel } from '../../care/findingRules.ts';
import type { LoadCaution, LoadFigures } from '../../care/load.ts';
import type { WorkloadOver } from '../../care/workload.ts';
import type { PlaceRef } from '../../day/board.ts';
import type { OpFact } from '../../day/ops.ts';

export type StandInsTaken = Extract<OpFact, { kind: 'standInsTaken' }>;

export type Readiness = {
  /** When the horse can stand at the ramp; null: cannot be said. */
  readonly ready: number | null;
  /** That it does so in time, 0 to 1; null: cannot be said. */
  readonly chance: number | null;
  /** Ramp time less `ready`, ms; negative: late. Null with `ready`. */
  readonly spareMs: number | null;
};

/**
 * How soon this horse would be ready for this place. `taken` null: if this change alone were made; otherwise, if all of
 * `taken` were, with its work given out. It must say the same each time it is asked the same.
 */
export type ReadyChance = (horse: string, place: PlaceRef, taken: StandInsTaken | null) => Readiness;

/** Why a pairing speaks for itself. */
export type For =
  | { readonly code: 'approved' }
  | { readonly code: 'same-tack'; readonly tack: string }
  | { readonly code: 'nothing-left-to-do' }
  | { readonly code: 'free-today' }
  | { readonly code: 'load-fits'; readonly figures: LoadFigures }
  | { readonly code: 'several-lessons'; readonly lessons: number };

/** What to weigh against it. None of these forbids it. */
export type Against =
  | { readonly code: 'not-on-approved-list' }
  | { readonly code: 'weight-unknown'; readonly of: 'rider' | 'horse' }
  | { readonly code: 'load-caution'; readonly caution: LoadCaution }
  | { readonly code: 'other-tack'; readonly wanted: string; readonly tack: string }
  | { readonly code: 'work-left'; readonly minutes: number }
  | { readonly code: 'worked-today'; readonly minutes: number }
  | { readonly code: 'finding-read'; readonly level: AdviceLevel }
  | { readonly code: 'tight'; readonly spareMinutes: number }
  | { readonly code: 'chance'; readonly chance: number }
  | { readonly code: 'ready-unknown' }
  | { readonly code: 'moves-a-settled-place' };

/** What an option does besides its changes. */
export type SideEffect =
  | {
      readonly code: 'makes-late';
      readonly horse: string;
      readonly lesson: string;
      readonly place: string;
      /** Null: it cannot be said any more when it will be ready. */
      readonly lateMinutes: number | null;
    }
  /** Its preparation is in nobody's queue: nobody alone is cleared for it, nobody alone has the time, or it can wait. */
  | {
      readonly code: 'work-not-given';
      readonly horse: string;
      readonly why: 'nobodyCleared' | 'nobodyInTime' | 'later';
    }
  | { readonly code: 'leaves-place'; readonly lesson: string; readonly place: string };

export type Change = {
  readonly lesson: string;
  readonly place: string;
  readonly horse: string;
  readonly horseName: string;
  readonly tack: string;
  /** The horse it had; null: none. */
  readonly instead: string | null;
  /** `standIn`: the place asked for one. `chain`: its horse went to stand in elsewhere. */
  readonly as: 'standIn' | 'chain';
  /** With all changes of the option made and its work given out. */
  readonly readiness: Readiness;
  readonly for: readonly For[];
  readonly against: readonly Against[];
};

/** Who prepares which horse from now. */
export type Task = {
  readonly lesson: string;
  readonly place: string;
  readonly horse: string;
  readonly to: string;
  readonly stages: readonly Stage[];
  /** The ramp time it is for. */
  readonly rampTime: number;
};

/** An option's place in the ranking: compared from left to right, less is better. */
export type Rank = {
  readonly uncovered: number;
  readonly changed: number;
  readonly risk: number;
  readonly soft: number;
};

export type StandInOption = {
  /** Ready to send. */
  readonly fact: StandInsTaken;
  readonly changes: readonly Change[];
  readonly tasks: readonly Task[];
  readonly sideEffects: readonly SideEffect[];
  readonly rank: Rank;
};

/** What would lift a block. */
export type Unblock =
  /** `clashes`: lessons that would then share the arena, the instructor, a rider, a helper or a horse with it. */
  | {
      readonly do: 'delayLesson';
      readonly lesson: string;
      readonly minutes: number;
      readonly clashes: readonly string[];
    }
  | { readonly do: 'lighterTack'; readonly tack: string; readonly name: string; readonly kg: number }
  /** The fewest of its places still to come that, given to other horses, bring it under every limit. */
  | { readonly do: 'giveUp'; readonly places: readonly PlaceRef[] }
  /** A named release; `wordFrom`: with that person's word. */
  | { readonly do: 'release'; readonly wordFrom: 'vet' | 'farrier' | null }
  | { readonly do: 'readFindings'; readonly findings: readonly string[] }
  | { readonly do: 'askInstructor'; readonly missing: 'rider-weight' | 'horse-weight' }
  | { readonly do: 'mendRecord'; readonly figure: string }
  | { readonly do: 'addTackList' }
  | { readonly do: 'farrierVisit' }
  /** Another horse for the place it is in; none was found. */
  | { readonly do: 'freeFirst'; readonly lesson: string; readonly place: string };

type Blocks<B extends { code: string }> = B & { readonly unblock: Unblock | null };

export type Block = Blocks<
  | { readonly code: 'held'; readonly kinds: readonly Hold['kind'][] }
  | { readonly code: 'finding'; readonly level: AdviceLevel; readonly unread: boolean }
  | { readonly code: 'no-tack' }
  /** Where the barn's rule says so. */
  | { readonly code: 'farrier-overdue'; readonly days: number }
  | { readonly code: 'not-with-rider' }
  | { readonly code: 'asked-to-replace' }
  | {
      readonly code: 'over-limit' | 'over-rider-cap';
      readonly limitKg: number;
      readonly figures: LoadFigures;
    }
  | { readonly code: 'ask-instructor' }
  | { readonly code: 'same-lesson' | 'overlapping-lesson'; readonly lesson: string; readonly place: string }
  /** The best option already uses it at that time. */
  | { readonly code: 'stands-in'; readonly lesson: string; readonly place: string }
  | { readonly code: 'workload'; readonly over: WorkloadOver }
  | { readonly code: 'not-ready'; readonly lateMinutes: number }
  /** The search was cut short, or a message can hold no more changes: this one was not settled. */
  | { readonly code: 'not-settled' }
>;

/** Why a horse cannot take a place that the best option leaves without one. */
export type Blocked = {
  readonly lesson: string;
  readonly place: string;
  readonly horse: string;
  readonly horseName: string;
  readonly blocks: readonly Block[];
};

export type StandIns = {
  /** Best first; each brings in another set of horses. */
  readonly options: readonly StandInOption[];
  readonly blocked: readonly Blocked[];
  /** False: the search reached its bound on steps, so something better may exist. */
  readonly exact: boolean;
};
