/** The objective of a schedule, level by level. */
import type { Model } from './model.ts';
import type { Objective } from './problem.ts';
import type { Schedule } from './schedule.ts';

/** Values of a schedule in times from `model.origin`; heads must be current. */
export function objectiveOf(schedule: Schedule): Objective {
  return {
    maxLateness: schedule.lateness,
    weightedTardiness: weightedTardiness(schedule),
    changes: changesFromCurrent(schedule),
    walking: walkingOf(schedule),
  };
}

/** The same over the operations that start before `limit`; -Infinity lateness when none with a due does. */
export function objectiveBefore(schedule: Schedule, limit: number): Objective {
  const { dueOperations, dueTail, weight } = schedule.model;
  const { head, time } = schedule;
  let maxLateness = -Infinity;
  let tardiness = 0;
  for (const o of dueOperations) {
    if (head[o]! >= limit) continue;
    const late = head[o]! + time[o]! + dueTail[o]!;
    maxLateness = Math.max(maxLateness, late);
    tardiness += weight[o]! * Math.max(0, late);
  }
  tardiness += softTardiness(schedule, limit);
  return {
    maxLateness,
    weightedTardiness: tardiness,
    changes: changesFromCurrent(schedule),
    walking: walkingOf(schedule),
  };
}

export function weightedTardiness(schedule: Schedule): number {
  const { dueOperations, dueTail, weight } = schedule.model;
  const { head, time } = schedule;
  let sum = 0;
  for (let i = 0; i < dueOperations.length; i++) {
    const o = dueOperations[i]!;
    const late = head[o]! + time[o]! + dueTail[o]!;
    if (late > 0) sum += weight[o]! * late;
  }
  return sum + softTardiness(schedule, Infinity);
}

/** Of the operations that start before `limit`. */
function softTardiness(schedule: Schedule, limit: number): number {
  const { softOperations, softTail, softWeight } = schedule.model;
  const { head, time } = schedule;
  let sum = 0;
  for (let i = 0; i < softOperations.length; i++) {
    const o = softOperations[i]!;
    if (head[o]! >= limit) continue;
    const late = head[o]! + time[o]! + softTail[i]!;
    if (late > 0) sum += softWeight[i]! * late;
  }
  return sum;
}

/** Operations changed against the current plan, by the problem's rule. */
export function changesFromCurrent(schedule: Schedule): number {
  const { model } = schedule;
  if (!model.hasCurrent) return 0;
  let changes = 0;
  for (let o = 0; o < model.n; o++) {
    if (model.currentMachine[o]! >= 0 && model.currentMachine[o] !== schedule.machine[o]) changes++;
  }
  if (!model.countOrder) return changes;
  for (let k = 0; k < model.m; k++) changes += outOfOrder(schedule, k);
  return changes;
}

/** Fewest operations to take off machine `k` so that those that were on it before keep their order. */
function outOfOrder(schedule: Schedule, k: number): number {
  const { n, currentMachine, currentPlace } = schedule.model;
  // Longest increasing subsequence by patience sorting: tops[i] ends a rising run of i + 1.
  const tops: number[] = [];
  let stayed = 0;
  for (let i = 0; i < schedule.length[k]!; i++) {
    const o = schedule.sequence[k * n + i]!;
    if (currentMachine[o] !== k) continue;
    stayed++;
    const place = currentPlace[o]!;
    let pile = tops.length;
    while (pile > 0 && tops[pile - 1]! > place) pile--;
    tops[pile] = place;
  }
  return stayed - tops.length;
}

export function walkingOf(schedule: Schedule): number {
  const { n, m, position, hasPositions }: Model = schedule.model;
  if (!hasPositions) return 0;
  let sum = 0;
  for (let k = 0; k < m; k++) {
    for (let i = 1; i < schedule.length[k]!; i++) {
      const a = schedule.sequence[k * n + i - 1]!;
      const b = schedule.sequence[k * n + i]!;
      sum += Math.abs(position[a]! - position[b]!);
    }
  }
  return sum;
}
