/** Reads a problem into typed arrays: checks every number, and says what it leaves out and why. */
import type {
  Absence,
  Dropped,
  Job,
  OperationRef,
  Problem,
  Refusal,
  Unplanned,
  UnplannedReason,
} from './problem.ts';
import { earliestStart } from './calendar.ts';

/** Later than any time of a problem; a start at or after it means "never". Sums stay within 31 bits. */
export const NEVER = 2 ** 29;
/** "No due here": a tail that no path can make longest (such an operation always has a successor with a due). */
export const NO_DUE = -(2 ** 29);
/** No operation lasts longer than this, in the caller's unit. */
export const MAX_TIME = 10_000_000;
/** Times of one problem (releases, dues, sum of longest durations) may not lie further apart than this. */
export const MAX_SPAN = 2 ** 28;
export const MAX_OPERATIONS = 5_000;
export const MAX_MACHINES = 500;

/** A problem in typed arrays. Operations are numbered job by job; times count from `origin`. */
export interface Model {
  readonly kind: 'model';
  readonly n: number;
  readonly m: number;
  readonly origin: number;
  readonly refs: readonly OperationRef[];
  readonly shape: readonly number[];
  readonly jobOf: Int32Array;
  /** Neighbours in the job; n: none. */
  readonly jobPrev: Int32Array;
  readonly jobNext: Int32Array;
  /** Earliest start by release and now. */
  readonly release: Int32Array;
  /** -due of the operation, or NO_DUE. */
  readonly dueTail: Int32Array;
  /** The operations with a due. */
  readonly dueOperations: Int32Array;
  readonly weight: Float64Array;
  /** The operations with a soft due, -due of each and its weight; in the same order. */
  readonly softOperations: Int32Array;
  readonly softTail: Int32Array;
  readonly softWeight: Float64Array;
  readonly position: Float64Array;
  /** Time on each machine, index operation * m + machine; 0: not eligible. */
  readonly time: Int32Array;
  readonly altStart: Int32Array;
  readonly altMachine: Int32Array;
  /** 1: under way, cannot be moved; its start is `release`. */
  readonly fixed: Uint8Array;
  /** Per machine 1 when its first place is taken by an operation under way. */
  readonly locked: Uint8Array;
  /** Absences of machine k: indexes awayStart[k] … awayStart[k+1]-1, sorted, apart from each other. */
  readonly awayStart: Int32Array;
  readonly awayFrom: Int32Array;
  readonly awayTo: Int32Array;
  readonly hasAbsences: boolean;
  readonly hasPositions: boolean;
  /** Machine in the current plan or -1, and place on it. */
  readonly currentMachine: Int32Array;
  readonly currentPlace: Int32Array;
  readonly hasCurrent: boolean;
  readonly countOrder: boolean;
  readonly unplanned: readonly Unplanned[];
  readonly dropped: readonly Dropped[];
}

const isTime = (value: number): boolean => Number.isSafeInteger(value);

function refuse(reason: Refusal['reason'], detail: string): Refusal {
  return { kind: 'refused', reason, detail };
}

/** Sorted, merged absences of one machine, or null when one cannot be read. */
function mergeAbsences(list: readonly Absence[]): { from: number; to: number }[] | null {
  const merged: { from: number; to: number }[] = [];
  const readable = (t: number): boolean => isTime(t) || t === Infinity || t === -Infinity;
  if (!list.every((a) => readable(a.from) && readable(a.to))) return null;
  for (const { from, to } of [...list].sort((x, y) => x.from - y.from || x.to - y.to)) {
    if (to <= from) continue;
    const last = merged.at(-1);
    if (last !== undefined && from <= last.to) last.to = Math.max(last.to, to);
    else merged.push({ from, to });
  }
  return merged;
}

interface Kept {
  ref: OperationRef;
  first: boolean;
  last: boolean;
  release: number;
  due: number | null;
  soft: { readonly due: number; readonly weight: number } | null;
  weight: number;
  position: number;
  alternatives: { machine: number; time: number }[];
  fixed: boolean;
}

/** The operations of one job that can be planned; the others go to `unplanned`. */
function readJob(
  job: Job,
  jobIndex: number,
  problem: Problem,
  lockedBy: Map<number, OperationRef>,
  unplanned: Unplanned[],
  dropped: Dropped[],
): Kept[] {
  const kept: Kept[] = [];
  const { operations } = job;
  const jobOk = isTime(job.release) && isTime(job.due) && Number.isFinite(job.weight) && job.weight >= 0;
  const position = job.position !== undefined && Number.isFinite(job.position) ? job.position : 0;
  let stopped: UnplannedReason | null = jobOk ? null : 'badJob';
  operations.forEach((operation, index) => {
    const ref = { job: jobIndex, operation: index };
    if (stopped !== null) {
      unplanned.push({ ...ref, reason: stopped });
      return;
    }
    const alternatives = new Map<number, number>();
    const drop = (machine: number, reason: Dropped['reason']): void => {
      dropped.push({ ...ref, machine, reason });
    };
    for (const { machine, time } of operation.alternatives) {
      if (!Number.isInteger(machine) || machine < 0 || machine >= problem.machineCount)
        drop(machine, 'noSuchMachine');
      else if (!isTime(time) || time <= 0 || time > MAX_TIME) drop(machine, 'badTime');
      else if (alternatives.has(machine)) drop(machine, 'repeated');
      else alternatives.set(machine, time);
    }
    const { underWay, due, soft } = operation;
    let reason: UnplannedReason | null = null;
    if (underWay !== undefined) {
      const time = alternatives.get(underWay.machine);
      if (index !== 0 || time === undefined || !isTime(underWay.start) || lockedBy.has(underWay.machine)) {
        reason = 'badUnderWay';
      } else if (problem.now !== undefined && underWay.start > problem.now) {
        reason = 'badUnderWay';
      } else {
        lockedBy.set(underWay.machine, ref);
        alternatives.clear();
        alternatives.set(underWay.machine, time);
      }
    }
    if (due !== undefined && !isTime(due)) reason = 'badDue';
    if (soft !== undefined && !(isTime(soft.due) && Number.isFinite(soft.weight) && soft.weight >= 0)) {
      reason = 'badDue';
    }
    if (operation.alternatives.length === 0) reason = 'noAlternatives';
    else if (alternatives.size === 0) reason = 'noUsableAlternative';
    if (reason !== null) {
      unplanned.push({ ...ref, reason });
      stopped = 'afterUnplanned';
      return;
    }
    const notBefore = problem.now === undefined ? job.release : Math.max(job.release, problem.now);
    kept.push({
      ref,
      first: kept.length === 0,
      last: false,
      release: underWay === undefined ? notBefore : underWay.start,
      due: due ?? null,
      soft: soft ?? null,
      weight: job.weight,
      position,
      alternatives: [...alternatives].map(([machine, time]) => ({ machine, time })),
      fixed: underWay !== undefined,
    });
  });
  return kept;
}

/**
 * Checks and compiles a problem. Operations that cannot be planned are listed, with those after them in
 * their job; the due of such a job then applies to its last planned operation.
 */
export function compile(problem: Problem): Model | Refusal {
  const m = problem.machineCount;
  if (!Number.isInteger(m) || m < 0) return refuse('badMachineCount', `machineCount is ${m}`);
  if (m > MAX_MACHINES) return refuse('tooLarge', `more than ${MAX_MACHINES} machines`);
  if (problem.now !== undefined && !isTime(problem.now)) return refuse('badNow', `now is ${problem.now}`);
  const total = problem.jobs.reduce((sum, job) => sum + job.operations.length, 0);
  if (total > MAX_OPERATIONS) return refuse('tooLarge', `more than ${MAX_OPERATIONS} operations`);

  const absences: { from: number; to: number }[][] = [];
  for (let k = 0; k < m; k++) {
    const merged = mergeAbsences(problem.absences?.[k] ?? []);
    if (merged === null) return refuse('badAbsence', `absences of machine ${k}`);
    absences.push(merged);
  }

  const unplanned: Unplanned[] = [];
  const dropped: Dropped[] = [];
  const lockedBy = new Map<number, OperationRef>();
  const perJob = problem.jobs.map((job, j) => readJob(job, j, problem, lockedBy, unplanned, dropped));

  const firsts = perJob.flatMap((kept) => (kept[0] === undefined ? [] : [kept[0]]));
  let origin = Infinity;
  for (const { release } of firsts) origin = Math.min(origin, release);
  if (origin === Infinity) origin = problem.now ?? 0;
  if (firsts.some(({ release }) => release - origin > MAX_SPAN)) {
    return refuse('timesTooFarApart', `releases lie more than ${MAX_SPAN} apart`);
  }

  const shifted = absences.map((list) =>
    list
      .map(({ from, to }) => ({
        from: Math.max(-NEVER, Math.min(NEVER, from - origin)),
        to: Math.max(-NEVER, Math.min(NEVER, to - origin)),
      }))
      .filter(({ from, to }) => to > from),
  );
  const awayStart = new Int32Array(m + 1);
  shifted.forEach((list, k) => (awayStart[k + 1] = awayStart[k]! + list.length));
  const awayFrom = Int32Array.from(shifted.flatMap((list) => list.map((a) => a.from)));
  const awayTo = Int32Array.from(shifted.flatMap((list) => list.map((a) => a.to)));

  let span = 0;
  let longest = 0;
  const operations: Kept[] = [];
  perJob.forEach((kept, j) => {
    let stopped = false;
    for (const operation of kept) {
      if (!stopped && !operation.fixed) {
        operation.alternatives = operation.alternatives.filter(({ machine, time }) => {
          const at = earliestStart(awayStart, awayFrom, awayTo, machine, operation.release - origin, time);
          if (at < NEVER) return true;
          dropped.push({ ...operation.ref, machine, reason: 'neverPresent' });
          return false;
        });
      }
      if (stopped || operation.alternatives.length === 0) {
        unplanned.push({ ...operation.ref, reason: stopped ? 'afterUnplanned' : 'noUsableAlternative' });
        stopped = true;
        continue;
      }
      operations.push(operation);
      span = Math.max(
        span,
        Math.abs(operation.release - origin),
        Math.abs((operation.due ?? origin) - origin),
        Math.abs((operation.soft?.due ?? origin) - origin),
      );
      longest += Math.max(...operation.alternatives.map((a) => a.time));
    }
    const last = kept.findLast((operation) => operations.includes(operation));
    if (last !== undefined) {
      last.last = true;
      span = Math.max(span, Math.abs(problem.jobs[j]!.due - origin));
    }
  });
  for (const list of shifted) for (const { to } of list) if (to < NEVER) span = Math.max(span, to);
  if (span + longest > MAX_SPAN)
    return refuse('timesTooFarApart', `times and durations span more than ${MAX_SPAN}`);

  const n = operations.length;
  const softs = operations.flatMap(({ soft }, o) => (soft === null ? [] : [{ o, ...soft }]));
  const model = {
    jobOf: new Int32Array(n),
    jobPrev: new Int32Array(n).fill(n),
    jobNext: new Int32Array(n).fill(n),
    release: new Int32Array(n),
    dueTail: new Int32Array(n),
    weight: new Float64Array(n),
    softOperations: Int32Array.from(softs, ({ o }) => o),
    softTail: Int32Array.from(softs, ({ due }) => origin - due),
    softWeight: Float64Array.from(softs, ({ weight }) => weight),
    position: new Float64Array(n),
    time: new Int32Array(n * m),
    altStart: new Int32Array(n + 1),
    fixed: new Uint8Array(n),
    locked: new Uint8Array(m),
    currentMachine: new Int32Array(n).fill(-1),
    currentPlace: new Int32Array(n).fill(-1),
  };
  const altMachine: number[] = [];
  const index = new Map<string, number>();
  operations.forEach((operation, o) => {
    const { job } = operation.ref;
    index.set(`${job}/${operation.ref.operation}`, o);
    model.jobOf[o] = job;
    if (o > 0 && operations[o - 1]!.ref.job === job) {
      model.jobPrev[o] = o - 1;
      model.jobNext[o - 1] = o;
    }
    model.release[o] = operation.release - origin;
    const jobDue = operation.last ? problem.jobs[job]!.due : Infinity;
    const due = Math.min(jobDue, operation.due ?? Infinity);
    model.dueTail[o] = due === Infinity ? NO_DUE : origin - due;
    model.weight[o] = operation.weight;
    model.position[o] = operation.position;
    for (const { machine, time } of operation.alternatives) {
      model.time[o * m + machine] = time;
      altMachine.push(machine);
    }
    model.altStart[o + 1] = altMachine.length;
    if (operation.fixed) {
      model.fixed[o] = 1;
      model.locked[operation.alternatives[0]!.machine] = 1;
    }
  });
  const seen = new Set<string>();
  for (const [machine, sequence] of (problem.current ?? []).entries()) {
    let place = 0;
    for (const { job, operation } of sequence) {
      const key = `${job}/${operation}`;
      if (machine >= m || seen.has(key) || problem.jobs[job]?.operations[operation] === undefined) {
        return refuse('badCurrent', `operation ${key} on machine ${machine}`);
      }
      seen.add(key);
      const o = index.get(key);
      if (o === undefined) continue;
      model.currentMachine[o] = machine;
      model.currentPlace[o] = place++;
    }
  }
  return {
    kind: 'model',
    n,
    m,
    origin,
    refs: operations.map((operation) => operation.ref),
    shape: problem.jobs.map((job) => job.operations.length),
    ...model,
    dueOperations: Int32Array.from(operations.keys()).filter((o) => model.dueTail[o] !== NO_DUE),
    altMachine: Int32Array.from(altMachine),
    awayStart,
    awayFrom,
    awayTo,
    hasAbsences: awayFrom.length > 0,
    hasPositions: problem.jobs.some((job) => job.position !== undefined),
    hasCurrent: problem.current !== undefined,
    countOrder: problem.changeRule !== 'machine',
    unplanned,
    dropped,
  };
}
