/**
 * Checks a plan against its problem from the definitions alone; shares no code with the search.
 * Answers in words what is wrong, so that a failing test says it.
 */
import type { Problem, Solution } from '#core/plan/search/problem.ts';

export function faults(problem: Problem, solution: Solution): string[] {
  const wrong: string[] = [];
  const unplanned = new Set(solution.unplanned.map((u) => `${u.job}/${u.operation}`));
  const busy: { from: number; to: number; name: string; underWay: boolean }[][] = Array.from(
    { length: problem.machineCount },
    () => [],
  );
  let maxLateness = -Infinity;
  let tardiness = 0;
  problem.jobs.forEach((job, j) => {
    let end = -Infinity;
    let lastPlanned = -1;
    job.operations.forEach((operation, i) => {
      const name = `${j}/${i}`;
      const planned = solution.operations[j]?.[i] ?? null;
      if ((planned === null) !== unplanned.has(name))
        wrong.push(`${name} is dropped in silence or both planned and not`);
      if (planned === null) return;
      lastPlanned = i;
      const time = operation.alternatives.find((a) => a.machine === planned.machine)?.time;
      if (time === undefined) wrong.push(`${name} runs on machine ${planned.machine}, which is not eligible`);
      if (planned.end - planned.start !== time)
        wrong.push(`${name} takes ${planned.end - planned.start}, not ${time}`);
      if (planned.start < end) wrong.push(`${name} starts before the operation before it ends`);
      end = planned.end;
      const { underWay } = operation;
      if (underWay === undefined) {
        if (planned.start < job.release) wrong.push(`${name} starts before its release`);
        if (problem.now !== undefined && planned.start < problem.now)
          wrong.push(`${name} starts in the past`);
      } else if (planned.start !== underWay.start || planned.machine !== underWay.machine) {
        wrong.push(`${name} is under way and was moved`);
      }
      busy[planned.machine]?.push({
        from: planned.start,
        to: planned.end,
        name,
        underWay: underWay !== undefined,
      });
      if (operation.soft !== undefined)
        tardiness += operation.soft.weight * Math.max(0, planned.end - operation.soft.due);
      if (operation.due !== undefined) {
        maxLateness = Math.max(maxLateness, planned.end - operation.due);
        if (i < job.operations.length - 1) tardiness += job.weight * Math.max(0, planned.end - operation.due);
      }
    });
    if (lastPlanned === job.operations.length - 1 && lastPlanned >= 0) {
      const due = Math.min(job.due, job.operations[lastPlanned]?.due ?? Infinity);
      maxLateness = Math.max(maxLateness, end - due);
      tardiness += job.weight * Math.max(0, end - due);
    }
  });
  busy.forEach((runs, k) => {
    runs.sort((a, b) => a.from - b.from);
    runs.forEach((run, i) => {
      const before = runs[i - 1];
      if (before !== undefined && run.from < before.to)
        wrong.push(`${before.name} and ${run.name} overlap on machine ${k}`);
      for (const absence of problem.absences?.[k] ?? []) {
        if (!run.underWay && absence.from < absence.to && run.from < absence.to && absence.from < run.to) {
          wrong.push(`${run.name} runs while machine ${k} is away`);
        }
      }
    });
    const listed = (solution.sequences[k] ?? []).map((ref) => `${ref.job}/${ref.operation}`).join(' ');
    if (listed !== runs.map((run) => run.name).join(' '))
      wrong.push(`the sequence of machine ${k} is not the order of its starts`);
  });
  if (solution.unplanned.length === 0) {
    if (solution.maxLateness !== maxLateness)
      wrong.push(`maximum lateness is ${maxLateness}, said ${solution.maxLateness}`);
    if (Math.abs(solution.weightedTardiness - tardiness) > 1e-6)
      wrong.push(`weighted tardiness is ${tardiness}, said ${solution.weightedTardiness}`);
    if (solution.lowerBound > maxLateness)
      wrong.push(`the bound ${solution.lowerBound} lies above ${maxLateness}`);
    if (solution.proven !== (solution.lowerBound === maxLateness))
      wrong.push('proven does not say whether value and bound are equal');
  }
  return wrong;
}
