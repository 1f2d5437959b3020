/** Reads flexible job shops in the text format common in the literature. */
import type { Alternative, Job, Problem } from '#core/plan/search/problem.ts';

/**
 * The common format: jobs and machines (and perhaps the average flexibility) first; then for each job its
 * count of operations, and for each operation its count of machines and as many pairs of machine (from 1)
 * and time. Only the order of the numbers matters, not the lines: whether there is a third number in the
 * head is seen from which reading uses up all numbers, the first line being asked first.
 */
export function parseFlexibleJobShop(text: string): Problem {
  const [head = ''] = text.trim().split('\n');
  const words = (part: string): number[] => part.trim().split(/[\s,;]+/).map(Number); // prettier-ignore
  const numbers = words(text);
  const headLengths = words(head).length === 3 ? [3, 2] : [2, 3];
  for (const strict of [true, false]) {
    for (const from of headLengths) {
      const problem = readJobs(numbers, from, strict);
      if (problem !== null) return problem;
    }
  }
  throw new Error('not a flexible job shop in the common format');
}

/** Null when the numbers from `from` on cannot be read so, or (strict) some are left over. */
function readJobs(numbers: readonly number[], from: number, strict: boolean): Problem | null {
  const [jobCount = 0, machineCount = 0] = numbers;
  let at = from;
  let sound = Number.isInteger(jobCount) && Number.isInteger(machineCount) && jobCount > 0;
  const next = (least: number, most: number): number => {
    const value = numbers[at++] ?? NaN;
    if (Number.isInteger(value) && value >= least && value <= most) return value;
    sound = false;
    return 0;
  };
  const jobs: Job[] = [];
  for (let j = 0; j < jobCount && sound; j++) {
    const operations = Array.from({ length: next(1, 10_000) }, () => ({
      alternatives: Array.from({ length: next(1, machineCount) }, (): Alternative => {
        const machine = next(1, machineCount) - 1;
        return { machine, time: next(1, Number.MAX_SAFE_INTEGER) };
      }),
    }));
    jobs.push({ release: 0, due: 0, weight: 1, operations });
  }
  return sound && (!strict || at === numbers.length) ? { machineCount, jobs } : null;
}
