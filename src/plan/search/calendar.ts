/** Fitting an uninterrupted run between the absences of a machine. */

/**
 * Earliest start >= `ready` of a run of `time` on machine `k` that touches no absence.
 * Absences that never end give a start at their end, which is later than any time of the problem.
 */
export function earliestStart(
  awayStart: Int32Array,
  awayFrom: Int32Array,
  awayTo: Int32Array,
  k: number,
  ready: number,
  time: number,
): number {
  let start = ready;
  for (let i = awayStart[k]!, end = awayStart[k + 1]!; i < end; i++) {
    if (awayTo[i]! <= start) continue;
    if (awayFrom[i]! >= start + time) break;
    start = awayTo[i]!;
  }
  return start;
}

/** Latest end <= `limit` of a run of `time` on machine `k` that touches no absence. Mirror of the above. */
export function latestEnd(
  awayStart: Int32Array,
  awayFrom: Int32Array,
  awayTo: Int32Array,
  k: number,
  limit: number,
  time: number,
): number {
  let end = limit;
  for (let i = awayStart[k + 1]! - 1, first = awayStart[k]!; i >= first; i--) {
    if (awayFrom[i]! >= end) continue;
    if (awayTo[i]! <= end - time) break;
    end = awayFrom[i]!;
  }
  return end;
}
