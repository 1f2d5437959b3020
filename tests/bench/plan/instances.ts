/** Reads flexible job shops in the text format common in the literature. */
import type { Alternative, Job, Problem } from '#core/plan/search/problem.ts';

/**
 * The common format: jobs and machines (and perhaps the average flexibility) first; then for each job its
 * count of operations, and for each operation its count of machines and as many pairs of machine (from 1)
 * and time. Only the order of numbers matters, except that a third number on the first line is skipped.
 */
export function parseFlexibleJobShop(text: string): Problem {
  const lines = text.split('\n').filter((line) => line.trim() !== '');
  const [first = '', ...others] = lines;
  const [jobCount = NaN, machineCount = NaN] = first.trim().split(/\s+/).map(Number);
  const numbers = others.join(' ').trim().split(/\s+/).map(Number);
  let at = 0;
  const next = (): number => {
    const value = numbers[at++];
    if (value === undefined || !Number.isInteger(value))
      throw new Error(`number ${at} after the first line is missing`);
    return value;
  };
  const jobs: Job[] = [];
  for (let j = 0; j < jobCount; j++) {
    const operations = Array.from({ length: next() }, () => ({
      alternatives: Array.from({ length: next() }, (): Alternative => ({
        machine: next() - 1,
        time: next(),
      })),
    }));
    jobs.push({ release: 0, due: 0, weight: 1, operations });
  }
  return { machineCount, jobs };
}
