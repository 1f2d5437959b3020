/**
 * Lower bounds on the maximum lateness, valid for every plan.
 *
 * Job bound: a job's operations one after another on their fastest machines.
 * Load bound: weigh machine k by w_k >= 0, let e(o) be the least w_k * time over the machines of o. Operations
 * with head >= a and tail >= b cannot be done before the machines have had sum e(o) of weighted time after a,
 * so lateness is at least that moment + b. With w on one machine this is Jackson's preemptive bound
 * (Carlier, EJOR 11, 1982); equal w on a set of machines gives the interval bound for parallel machines;
 * the best w is the dual of sharing out unequal times among machines, approached by multiplicative updates.
 */
import { earliestStart } from './calendar.ts';
import type { Model } from './model.ts';
import { NEVER } from './model.ts';
import { leastTimes } from './start.ts';

/** Rounds of reweighing from each of the best starting sets. */
const ROUNDS = 150;
/** Starting sets of machines that are reweighed. */
const REWEIGHED = 4;
/** At most this many sets of machines are tried unweighted. */
const MAX_SETS = 120;
const NOTHING = -(2 ** 30);
/** A share of the weight below this is none: capacity given at a tiny rate would drown in rounding. */
const LEAST_WEIGHT = 1e-4;
/** Guards the rounding up of a sum of floats that ought to be whole. */
const EPSILON = 1e-6;

interface Window {
  /** Bound before rounding up. */
  value: number;
  from: number;
  tail: number;
}

/** The bound in times from `model.origin`; -2^30 when there is nothing to plan. */
export function lowerBound(model: Model): number {
  const { n, m, jobPrev, jobNext, release, dueTail, altStart, altMachine, time, fixed } = model;
  if (n === 0) return NOTHING;
  const least = leastTimes(model);
  const head = new Int32Array(n);
  const end = new Int32Array(n);
  const tail = new Int32Array(n);
  for (let o = 0; o < n; o++) {
    const ready = Math.max(release[o]!, jobPrev[o]! < n ? end[jobPrev[o]!]! : NOTHING);
    let first = 2 ** 30;
    let firstEnd = 2 ** 30;
    for (let a = altStart[o]!; a < altStart[o + 1]!; a++) {
      const k = altMachine[a]!;
      const duration = time[o * m + k]!;
      const start =
        fixed[o] === 1
          ? release[o]!
          : earliestStart(model.awayStart, model.awayFrom, model.awayTo, k, ready, duration);
      first = Math.min(first, start);
      firstEnd = Math.min(firstEnd, start + duration);
    }
    head[o] = first;
    end[o] = firstEnd;
  }
  let bound = NOTHING;
  for (let o = n - 1; o >= 0; o--) {
    const next = jobNext[o]!;
    tail[o] = Math.max(dueTail[o]!, next < n ? least[next]! + tail[next]! : dueTail[o]!);
    bound = Math.max(bound, end[o]! + tail[o]!);
  }

  const byTail = Array.from({ length: n }, (_, o) => o).sort((x, y) => tail[y]! - tail[x]!);
  const froms = [...new Set(head)].sort((x, y) => x - y);
  const work = new Float64Array(n);

  const weigh = (weights: Float64Array): void => {
    for (let o = 0; o < n; o++) {
      let value = Infinity;
      for (let a = altStart[o]!; a < altStart[o + 1]!; a++) {
        const k = altMachine[a]!;
        // An operation under way is at work outside its machine's absences or in them: it proves nothing.
        const cost = fixed[o] === 1 && model.hasAbsences ? 0 : weights[k]! * time[o * m + k]!;
        if (cost < value) value = cost;
      }
      work[o] = value;
    }
  };
  const bestWindow = (weights: Float64Array): Window => {
    weigh(weights);
    let total = 0;
    for (let k = 0; k < m; k++) total += weights[k]!;
    const best: Window = { value: NOTHING, from: 0, tail: 0 };
    if (total <= 0) return best;
    for (const from of froms) {
      const clock = model.hasAbsences ? capacityClock(model, weights, total, from) : null;
      let sum = 0;
      for (let i = 0; i < n; i++) {
        const o = byTail[i]!;
        if (head[o]! < from || work[o]! === 0) continue;
        sum += work[o]!;
        const done = clock === null ? from + sum / total : clock(sum);
        if (done + tail[o]! > best.value) {
          best.value = done + tail[o]!;
          best.from = from;
          best.tail = tail[o]!;
        }
      }
    }
    return best;
  };

  const sets = machineSets(model);
  const tried = sets.map((weights) => ({ weights, window: bestWindow(weights) }));
  tried.sort((x, y) => y.window.value - x.window.value);
  for (const { window } of tried) bound = Math.max(bound, Math.ceil(window.value - EPSILON));

  const load = new Float64Array(m);
  for (const { weights, window } of tried.slice(0, REWEIGHED)) {
    const w = Float64Array.from(weights);
    // A machine outside the set may come in: give it a little weight.
    let sum = 0;
    for (let k = 0; k < m; k++) {
      w[k] = Math.max(w[k]!, 0.02);
      sum += w[k]!;
    }
    for (let k = 0; k < m; k++) w[k] = w[k]! / sum;
    let { from, tail: floor } = window;
    for (let round = 0; round < ROUNDS; round++) {
      load.fill(0);
      let whole = 0;
      for (let o = 0; o < n; o++) {
        if (head[o]! < from || tail[o]! < floor) continue;
        let machine = -1;
        let value = Infinity;
        for (let a = altStart[o]!; a < altStart[o + 1]!; a++) {
          const k = altMachine[a]!;
          const cost = w[k]! * time[o * m + k]!;
          if (cost < value) {
            value = cost;
            machine = k;
          }
        }
        load[machine]! += time[o * m + machine]!;
        whole += time[o * m + machine]!;
      }
      if (whole === 0) break;
      // A dearer machine is given less: weights grow where the load is above the mean, by shrinking steps.
      const step = 0.5 / (1 + round / 8);
      let total = 0;
      for (let k = 0; k < m; k++) {
        w[k] = w[k]! * Math.exp(step * ((load[k]! * m) / whole - 1));
        total += w[k]!;
      }
      for (let k = 0; k < m; k++) w[k] = w[k]! < LEAST_WEIGHT * total ? 0 : w[k]! / total;
      if (round % 10 === 9) {
        const found = bestWindow(w);
        bound = Math.max(bound, Math.ceil(found.value - EPSILON));
        ({ from, tail: floor } = found);
      }
    }
  }
  return bound;
}

/**
 * The moment at which machines present from `from` on have given `sum` of weighted time; must be asked with
 * rising sums.
 */
function capacityClock(
  model: Model,
  weights: Float64Array,
  total: number,
  from: number,
): (sum: number) => number {
  const { m, awayStart, awayFrom, awayTo } = model;
  const changes: [at: number, weight: number][] = [];
  let rate = total;
  for (let k = 0; k < m; k++) {
    if (weights[k] === 0) continue;
    for (let i = awayStart[k]!; i < awayStart[k + 1]!; i++) {
      if (awayTo[i]! <= from) continue;
      if (awayFrom[i]! <= from) rate -= weights[k]!;
      else changes.push([awayFrom[i]!, -weights[k]!]);
      changes.push([awayTo[i]!, weights[k]!]);
    }
  }
  changes.sort((x, y) => x[0] - y[0]);
  let at = from;
  let given = 0;
  let next = 0;
  return (asked) => {
    // A hair less than asked: work that just fits before an absence must not be pushed behind it by rounding.
    const sum = asked * (1 - 1e-9);
    for (;;) {
      const [until, change] = changes[next] ?? [Infinity, 0];
      const possible = rate > 1e-9 ? given + rate * (until - at) : given;
      if (rate > 1e-9 && possible >= sum) return at + (sum - given) / rate;
      if (until === Infinity) return NEVER;
      given = possible;
      at = until;
      rate += change;
      next++;
    }
  };
}

/** Weights of sets of machines worth trying: single ones, eligible sets, unions of two of these, and all. */
function machineSets(model: Model): Float64Array[] {
  const { n, m, altStart, altMachine } = model;
  const found = new Map<string, Float64Array>();
  const add = (machines: readonly number[]): void => {
    const weights = new Float64Array(m);
    for (const k of machines) weights[k] = 1;
    const key = weights.join('');
    if (found.size < MAX_SETS && !found.has(key)) found.set(key, weights);
  };
  const machinesOf = (weights: Float64Array): number[] =>
    Array.from(weights.keys()).filter((k) => weights[k] === 1);
  add(Array.from({ length: m }, (_, k) => k));
  for (let k = 0; k < m; k++) add([k]);
  for (let o = 0; o < n; o++) add(Array.from(altMachine.subarray(altStart[o], altStart[o + 1])));
  const single = [...found.values()];
  for (const a of single) {
    for (const b of single) {
      if (found.size >= MAX_SETS) return [...found.values()];
      add([...machinesOf(a), ...machinesOf(b)]);
    }
  }
  return [...found.values()];
}
