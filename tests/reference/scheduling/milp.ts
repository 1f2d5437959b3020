/**
 * The same problem as a mixed integer linear programme for HiGHS (Manne 1960 with machine choice as in Özgüven,
 * Özbakır & Yavuz 2010): start times, machine choice, order of each pair that can meet, and for each absence
 * "before or after". Smallest maximum lateness only; needs every operation to be plannable.
 */
import loadHighs from 'highs';
import type { Problem } from '#core/plan/search/problem.ts';

export interface MilpResult {
  readonly proven: boolean;
  readonly maxLateness: number;
}

interface Item {
  job: number;
  name: string;
  times: Map<number, number>;
}

export function toLp(problem: Problem): string {
  const items: Item[] = problem.jobs.flatMap((job, j) =>
    job.operations.map((operation, i) => ({
      job: j,
      name: `${j}_${i}`,
      times: new Map(operation.alternatives.map((a) => [a.machine, a.time])),
    })),
  );
  const ends = problem.absences?.flat().map((a) => a.to) ?? [];
  const horizon =
    Math.max(0, ...problem.jobs.map((job) => job.release), ...ends) +
    items.reduce((sum, item) => sum + Math.max(...item.times.values()), 0);
  const rows: string[] = [];
  const binaries: string[] = [];
  const x = (item: Item, k: number): string => `x${item.name}_${k}`;
  const duration = (item: Item, sign: '+' | '-'): string =>
    [...item.times].map(([k, time]) => `${sign} ${time} ${x(item, k)}`).join(' ');
  for (const item of items) {
    rows.push(`${[...item.times.keys()].map((k) => x(item, k)).join(' + ')} = 1`);
    binaries.push(...[...item.times.keys()].map((k) => x(item, k)));
    for (const [k, time] of item.times) {
      (problem.absences?.[k] ?? []).forEach((absence, w) => {
        const after = `z${item.name}_${k}_${w}`;
        binaries.push(after);
        // after = 1: start >= to; after = 0: start + time <= from; both only when x = 1.
        rows.push(`s${item.name} - ${absence.to} ${after} - ${absence.to} ${x(item, k)} >= ${-absence.to}`);
        rows.push(
          `s${item.name} - ${horizon} ${after} + ${horizon} ${x(item, k)} <= ${absence.from - time + horizon}`,
        );
      });
    }
  }
  problem.jobs.forEach((job, j) => {
    const own = items.filter((item) => item.job === j);
    own.forEach((item, i) => {
      const next = own[i + 1];
      if (i === 0) rows.push(`s${item.name} >= ${job.release}`);
      if (next !== undefined) rows.push(`s${next.name} - s${item.name} ${duration(item, '-')} >= 0`);
      else rows.push(`L - s${item.name} ${duration(item, '-')} >= ${-job.due}`);
    });
  });
  items.forEach((a, i) => {
    for (const b of items.slice(i + 1)) {
      if (a.job === b.job) continue;
      const shared = [...a.times.keys()].filter((k) => b.times.has(k));
      if (shared.length === 0) continue;
      const first = `y${a.name}_${b.name}`;
      binaries.push(first);
      for (const k of shared) {
        const both = `+ ${horizon} ${x(a, k)} + ${horizon} ${x(b, k)}`;
        // first = 1: b after a; first = 0: a after b; both only when they share machine k.
        rows.push(
          `s${a.name} - s${b.name} + ${horizon} ${first} ${both} <= ${3 * horizon - (a.times.get(k) ?? 0)}`,
        );
        rows.push(
          `s${b.name} - s${a.name} - ${horizon} ${first} ${both} <= ${2 * horizon - (b.times.get(k) ?? 0)}`,
        );
      }
    }
  });
  return `Minimize\n obj: L\nSubject To\n${rows.map((row, i) => ` c${i}: ${row}`).join('\n')}\nBounds\n L free\nBinary\n ${binaries.join('\n ')}\nEnd\n`;
}

/** Loads HiGHS and gives a solver with a limit in seconds a case. */
export async function milpSolver(limitSeconds: number): Promise<(problem: Problem) => MilpResult> {
  // Its types describe the CommonJS build, in which the loader is the module's `default`.
  const highs = await (loadHighs as unknown as typeof loadHighs.default)();
  return (problem) => {
    const answer = highs.solve(toLp(problem), { time_limit: limitSeconds, mip_rel_gap: 0, mip_abs_gap: 0.5 });
    return { proven: answer.Status === 'Optimal', maxLateness: Math.round(answer.ObjectiveValue) };
  };
}
