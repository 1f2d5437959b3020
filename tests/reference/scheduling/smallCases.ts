/** Random small problems with eligible sets, releases, dues and absences, for comparison with a MILP. */
import type { Absence, Problem } from '#core/plan/search/problem.ts';
import { seededRandom } from '#core/plan/search/random.ts';

/** Jobs, operations a job, machines: at most 12 operations, which the MILP mostly proves in a second. */
const SHAPES = [
  [3, 3, 2],
  [4, 2, 2],
  [4, 3, 3],
  [3, 4, 2],
  [5, 2, 2],
  [4, 2, 3],
] as const;

/** Case number `index`: the same each time. Every other case has absences. */
export function smallCase(index: number): Problem {
  const random = seededRandom(7_000 + index);
  const [jobCount, length, machineCount] = SHAPES[index % SHAPES.length] ?? SHAPES[0];
  const between = (low: number, high: number): number => low + random.below(high - low + 1);
  const pace = Array.from({ length: machineCount }, () => between(8, 14));
  const absences = Array.from({ length: machineCount }, (): Absence[] => {
    if (Math.floor(index / SHAPES.length) % 2 === 0) return [];
    const from = between(5, 60);
    return [{ from, to: from + between(5, 30) }];
  });
  const jobs = Array.from({ length: jobCount }, () => {
    const release = between(0, 25);
    const operations = Array.from({ length }, () => {
      const work = between(4, 30);
      const cleared = pace.map((_, k) => k).filter(() => random.below(10) < 6);
      const machines = cleared.length > 0 ? cleared : [random.below(machineCount)];
      return {
        alternatives: machines.map((machine) => ({
          machine,
          time: Math.max(1, Math.round((work * (pace[machine] ?? 10)) / 10)),
        })),
      };
    });
    return { release, due: release + between(30, 110), weight: 1, operations };
  });
  return { machineCount, absences, jobs };
}
