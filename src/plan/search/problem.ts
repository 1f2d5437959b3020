/**
 * The flexible job shop with release and due dates, as the search takes it and answers it.
 *
 * Terms are those of scheduling theory (Pinedo, Scheduling): a job is a chain of operations, an operation
 * runs without interruption on one of its eligible machines, lateness is completion minus due.
 * All times are whole numbers in one unit of the caller's choice (the planner uses seconds) from any origin.
 */

/** A stretch [from, to) during which a machine runs nothing. `to: Infinity`: it does not come back. */
export interface Absence {
  readonly from: number;
  readonly to: number;
}

/** One way to run an operation. */
export interface Alternative {
  readonly machine: number;
  readonly time: number;
}

export interface Operation {
  readonly alternatives: readonly Alternative[];
  /** An own due time beside the job's (it counts in lateness and tardiness with the job's weight). */
  readonly due?: number;
  /** A further due time that counts in the tardiness alone, with a weight of its own, >= 0. */
  readonly soft?: { readonly due: number; readonly weight: number };
  /** Running already: stays on this machine, first, from this start (which may lie before `now`). */
  readonly underWay?: { readonly machine: number; readonly start: number };
}

export interface Job {
  readonly release: number;
  readonly due: number;
  /** Weight in the weighted tardiness, >= 0. */
  readonly weight: number;
  readonly operations: readonly Operation[];
  /** Where the job stands on a line, metres: only for walking. */
  readonly position?: number;
}

/** An operation by its place in the problem. */
export interface OperationRef {
  readonly job: number;
  readonly operation: number;
}

/** Per machine, its operations in order. */
export type MachineSequences = readonly (readonly OperationRef[])[];

export interface Problem {
  readonly machineCount: number;
  /** Per machine, when it is away; missing: never. */
  readonly absences?: readonly (readonly Absence[])[];
  readonly jobs: readonly Job[];
  /** Nothing that is not under way starts before this time. */
  readonly now?: number;
  /** The plan in force, against which changes are counted. */
  readonly current?: MachineSequences;
  /**
   * What counts as one change against `current`: an operation on another machine (`machine`), or that and an
   * operation that leaves its order on the same machine (`machineAndOrder`, the default). Order changes are
   * the fewest operations to take out so that those left on a machine keep their order.
   */
  readonly changeRule?: 'machine' | 'machineAndOrder';
}

/** Lexicographic, each to be made small: first lateness, then tardiness, then changes, then walking. */
export interface Objective {
  /** max (completion - due); -Infinity when nothing is planned. */
  readonly maxLateness: number;
  /** sum weight * max(0, completion - due), soft dues included. */
  readonly weightedTardiness: number;
  readonly changes: number;
  /** Metres between consecutive jobs, summed over machines. */
  readonly walking: number;
}

export type UnplannedReason =
  | 'noAlternatives' // the operation names no machine
  | 'noUsableAlternative' // every alternative was dropped, see `dropped`
  | 'afterUnplanned' // an earlier operation of its job cannot be planned
  | 'badJob' // release, due or weight of its job is not a usable number
  | 'badDue' // its own or its soft due is not a usable number
  | 'badUnderWay' // under way, but not first in its job, or on a machine or from a time that cannot be
  | 'noRoom'; // machines are away for good before it could be done

export interface Unplanned extends OperationRef {
  readonly reason: UnplannedReason;
}

export type DroppedReason = 'noSuchMachine' | 'badTime' | 'neverPresent' | 'repeated';

/** An alternative that was left out of account. */
export interface Dropped extends OperationRef {
  readonly machine: number;
  readonly reason: DroppedReason;
}

/** The whole problem cannot be read. */
export interface Refusal {
  readonly kind: 'refused';
  readonly reason:
    'badMachineCount' | 'badAbsence' | 'badNow' | 'badCurrent' | 'tooLarge' | 'timesTooFarApart';
  readonly detail: string;
}

export interface PlannedOperation extends OperationRef {
  readonly machine: number;
  readonly start: number;
  readonly end: number;
}

export interface Solution extends Objective {
  readonly kind: 'solution';
  /** Per job, per operation; null where the operation is in `unplanned`. */
  readonly operations: readonly (readonly (PlannedOperation | null)[])[];
  readonly sequences: MachineSequences;
  /** No plan of the operations planned here has a smaller maximum lateness than this. */
  readonly lowerBound: number;
  /** maxLateness equals lowerBound: no plan is less late. */
  readonly proven: boolean;
  readonly unplanned: readonly Unplanned[];
  readonly dropped: readonly Dropped[];
}

/** Negative when `a` is better than `b`. */
export function compareObjectives(a: Objective, b: Objective): number {
  if (a.maxLateness !== b.maxLateness) return a.maxLateness < b.maxLateness ? -1 : 1;
  if (a.weightedTardiness !== b.weightedTardiness) return a.weightedTardiness < b.weightedTardiness ? -1 : 1;
  if (a.changes !== b.changes) return a.changes - b.changes;
  return a.walking - b.walking;
}
