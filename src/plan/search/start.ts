/** Starting schedules from dispatching rules, and list scheduling. */
import { earliestStart } from './calendar.ts';
import type { Model } from './model.ts';
import { Neighbourhood } from './moves.ts';
import type { Random } from './random.ts';
import { Schedule } from './schedule.ts';

/** Which ready operation goes first. `random` draws. */
export type Rule =
  'earliestDue' | 'leastSlack' | 'mostWork' | 'leastWork' | 'earliestEnd' | 'shortest' | 'random';
export const RULES: readonly Rule[] = [
  'earliestDue',
  'leastSlack',
  'mostWork',
  'leastWork',
  'earliestEnd',
  'shortest',
  'random',
];

/** Least time of each operation over its machines. */
export function leastTimes(model: Model): Int32Array {
  const { n, m, altStart, altMachine, time } = model;
  const least = new Int32Array(n);
  for (let o = 0; o < n; o++) {
    let value = 2 ** 30;
    for (let a = altStart[o]!; a < altStart[o + 1]!; a++)
      value = Math.min(value, time[o * m + altMachine[a]!]!);
    least[o] = value;
  }
  return least;
}

/**
 * Builds a schedule operation by operation: the rule names the job, and the operation goes on the machine
 * where it ends first (drawn among equals).
 */
export function dispatch(model: Model, rule: Rule, random: Random): Schedule {
  const { n, m, jobPrev, jobNext, release, dueTail, altStart, altMachine, time, fixed } = model;
  const least = leastTimes(model);
  const schedule = new Schedule(model);
  const workLeft = new Int32Array(n);
  const tailLeft = new Int32Array(n);
  for (let o = n - 1; o >= 0; o--) {
    const next = jobNext[o]!;
    workLeft[o] = least[o]! + (next < n ? workLeft[next]! : 0);
    tailLeft[o] = Math.max(dueTail[o]!, next < n ? least[next]! + tailLeft[next]! : dueTail[o]!);
  }
  const machineFree = new Int32Array(m).fill(-(2 ** 30));
  const ready: number[] = [];
  const readyAt = new Int32Array(n);
  const place = (o: number, k: number): void => {
    const start =
      fixed[o] === 1
        ? release[o]!
        : earliestStart(
            model.awayStart,
            model.awayFrom,
            model.awayTo,
            k,
            Math.max(readyAt[o]!, machineFree[k]!),
            time[o * m + k]!,
          );
    const end = start + time[o * m + k]!;
    schedule.append(o, k);
    machineFree[k] = end;
    const next = jobNext[o]!;
    if (next < n) {
      readyAt[next] = Math.max(release[next]!, end);
      ready.push(next);
    }
  };
  for (let o = 0; o < n; o++) if (fixed[o] === 1) place(o, altMachine[altStart[o]!]!);
  for (let o = 0; o < n; o++) {
    if (jobPrev[o]! === n && fixed[o] === 0) {
      readyAt[o] = release[o]!;
      ready.push(o);
    }
  }
  const endOn = (o: number, k: number): number =>
    earliestStart(
      model.awayStart,
      model.awayFrom,
      model.awayTo,
      k,
      Math.max(readyAt[o]!, machineFree[k]!),
      time[o * m + k]!,
    ) + time[o * m + k]!;
  while (ready.length > 0) {
    // Non-delay among the ready: only operations that could start before the first of them could end.
    let firstEnd = 2 ** 30;
    const bestMachine: number[] = [];
    const bestEnd: number[] = [];
    for (const o of ready) {
      let end = 2 ** 31;
      let machine = -1;
      let ties = 0;
      for (let a = altStart[o]!; a < altStart[o + 1]!; a++) {
        const k = altMachine[a]!;
        const value = endOn(o, k);
        if (value < end) {
          end = value;
          ties = 0;
        }
        if (value === end && random.below(++ties) === 0) machine = k;
      }
      bestMachine.push(machine);
      bestEnd.push(end);
      firstEnd = Math.min(firstEnd, end);
    }
    let pick = -1;
    let pickValue = Infinity;
    let ties = 0;
    for (let i = 0; i < ready.length; i++) {
      const o = ready[i]!;
      if (bestEnd[i]! - time[o * m + bestMachine[i]!]! >= firstEnd) continue;
      const value = priority(rule, o);
      if (value < pickValue) {
        pickValue = value;
        ties = 0;
      }
      if (value === pickValue && random.below(++ties) === 0) pick = i;
    }
    const o = ready[pick]!;
    const k = bestMachine[pick]!;
    ready[pick] = ready.at(-1)!;
    ready.pop();
    place(o, k);

    function priority(by: Rule, x: number): number {
      switch (by) {
        case 'earliestDue':
          return -(tailLeft[x]! - workLeft[x]! + least[x]!);
        case 'leastSlack':
          return -(tailLeft[x]! + least[x]!);
        case 'mostWork':
          return -workLeft[x]!;
        case 'leastWork':
          return workLeft[x]!;
        case 'earliestEnd':
          return bestEnd[ready.indexOf(x)]!;
        case 'shortest':
          return least[x]!;
        case 'random':
          return random.below(2 ** 30);
      }
    }
  }
  schedule.evaluate();
  return schedule;
}

/** Draws of each rule when the starting schedules are built. */
const DRAWS = 2;

/** Starting schedules: the current plan (completed) if there is one, then each rule a few times. */
export function startSchedules(model: Model, random: Random): Schedule[] {
  const starts: Schedule[] = [];
  const current = currentSchedule(model);
  if (current !== null) starts.push(current);
  for (const rule of RULES) for (let i = 0; i < DRAWS; i++) starts.push(dispatch(model, rule, random));
  return starts;
}

/** The current plan with what it lacks put in where it hurts least; null when there is none or it is circular. */
export function currentSchedule(model: Model): Schedule | null {
  if (!model.hasCurrent) return null;
  const { n, m, currentMachine, currentPlace, altStart, altMachine, fixed, time } = model;
  const schedule = new Schedule(model);
  const planned = Array.from({ length: n }, (_, o) => o)
    .filter((o) => fixed[o] === 0 && currentMachine[o]! >= 0 && time[o * m + currentMachine[o]!]! > 0)
    .sort((a, b) => currentPlace[a]! - currentPlace[b]!);
  for (let o = 0; o < n; o++) if (fixed[o] === 1) schedule.append(o, altMachine[altStart[o]!]!);
  for (const o of planned) schedule.append(o, currentMachine[o]!);
  if (!schedule.evaluate()) return null;
  const moves = new Neighbourhood(model);
  for (let o = 0; o < n; o++) {
    if (schedule.machine[o]! >= 0) continue;
    let machine = -1;
    let place = -1;
    let value = Infinity;
    for (let a = altStart[o]!; a < altStart[o + 1]!; a++) {
      moves.visitInsertions(schedule, o, altMachine[a]!, 2 ** 31, (_, k, at, estimate) => {
        if (estimate >= value) return;
        value = estimate;
        machine = k;
        place = at;
      });
    }
    schedule.insert(o, machine, place);
    if (!schedule.evaluate()) throw new Error('an insertion made a cycle');
  }
  return schedule;
}
