/**
 * Critical path method and PERT on a network of activities.
 *
 * Forward and backward pass with total and free float (Kelley & Walker 1959); mean and variance of one
 * activity from three estimates (Malcolm, Roseboom, Clark & Fazar 1959).
 */

export interface Activity {
  readonly duration: number;
  /** Indexes of the activities that must end before this one starts. */
  readonly after: readonly number[];
}

export interface ActivityTimes {
  readonly earliestStart: number;
  readonly earliestFinish: number;
  readonly latestStart: number;
  readonly latestFinish: number;
  /** Delay that leaves the project's end as it is. */
  readonly totalFloat: number;
  /** Delay that leaves every following activity's earliest start as it is. */
  readonly freeFloat: number;
}

export interface Network {
  readonly kind: 'network';
  /** Earliest end of all activities, in the unit of the durations. */
  readonly duration: number;
  readonly activities: readonly ActivityTimes[];
  /** Activities without total float, by earliest start. */
  readonly critical: readonly number[];
}

export type NetworkRefusal =
  | {
      readonly kind: 'refused';
      readonly reason: 'badDuration' | 'unknownPredecessor';
      readonly activity: number;
    }
  | { readonly kind: 'refused'; readonly reason: 'cycle' };

/** Earliest and latest times of a network of activities that starts at 0. Durations are finite and >= 0. */
export function criticalPath(activities: readonly Activity[]): Network | NetworkRefusal {
  const n = activities.length;
  const followers: number[][] = activities.map(() => []);
  for (const [i, { duration, after }] of activities.entries()) {
    if (!Number.isFinite(duration) || duration < 0)
      return { kind: 'refused', reason: 'badDuration', activity: i };
    for (const before of after) {
      const list = followers[before];
      if (list === undefined) return { kind: 'refused', reason: 'unknownPredecessor', activity: i };
      list.push(i);
    }
  }
  const waiting = activities.map((activity) => activity.after.length);
  const order = [...waiting.keys()].filter((i) => waiting[i] === 0);
  const start = new Float64Array(n);
  const finish = new Float64Array(n);
  for (const i of order) {
    finish[i] = start[i]! + activities[i]!.duration;
    for (const next of followers[i]!) {
      start[next] = Math.max(start[next]!, finish[i]);
      if (--waiting[next]! === 0) order.push(next);
    }
  }
  if (order.length < n) return { kind: 'refused', reason: 'cycle' };
  const duration = finish.reduce((a, b) => Math.max(a, b), 0);
  const latestFinish = new Float64Array(n).fill(duration);
  for (const i of order.toReversed()) {
    for (const next of followers[i]!) {
      latestFinish[i] = Math.min(latestFinish[i]!, latestFinish[next]! - activities[next]!.duration);
    }
  }
  const times = activities.map((activity, i): ActivityTimes => {
    const nextStart = followers[i]!.reduce((least, next) => Math.min(least, start[next]!), duration);
    return {
      earliestStart: start[i]!,
      earliestFinish: finish[i]!,
      latestStart: latestFinish[i]! - activity.duration,
      latestFinish: latestFinish[i]!,
      totalFloat: latestFinish[i]! - finish[i]!,
      freeFloat: nextStart - finish[i]!,
    };
  });
  // Sums of the same durations in another order may differ by rounding.
  const rounding = 1e-9 * Math.max(1, duration);
  const critical = [...times.keys()]
    .filter((i) => times[i]!.totalFloat <= rounding)
    .sort((a, b) => start[a]! - start[b]! || a - b);
  return { kind: 'network', duration, activities: times, critical };
}

/** Mean and variance of a duration from an optimistic, a most likely and a pessimistic estimate. */
export function pertEstimate(
  optimistic: number,
  likely: number,
  pessimistic: number,
): { readonly mean: number; readonly variance: number } {
  return {
    mean: (optimistic + 4 * likely + pessimistic) / 6,
    variance: ((pessimistic - optimistic) / 6) ** 2,
  };
}
