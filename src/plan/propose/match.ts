/** Asking places on one side, horses or people on the other: as many places as can be, then the least cost. */
import type { Lesson } from '../../barn/lesson.ts';
import { lessonEnd } from '../../day/preps.ts';
import { assign } from '../standIns/assign.ts';

/** More than all other costs of one match together: whole numbers below 10⁴ each, at most some hundred rows. */
const ONE_LEFT_OPEN = 1e7;

/**
 * For each row the index of its column, or null. `cost[row][column]` whole, 0 … 9999; `Infinity`: not allowed. No column
 * is given twice. No other way fills more rows, and none that fills as many costs less.
 */
export function match(cost: readonly (readonly number[])[]): (number | null)[] {
  const width = cost[0]?.length ?? 0;
  const padded = cost.map((row) => [...row, ...cost.map(() => ONE_LEFT_OPEN)]);
  const columns = assign(padded)?.columns ?? [];
  return cost.map((_, row) => {
    const column = columns[row] ?? width;
    return column < width ? column : null;
  });
}

/** Groups of lessons that hang together by overlapping, in the order of their starts. */
export function overlapping<T extends { readonly lesson: Lesson }>(asking: readonly T[]): T[][] {
  const groups: T[][] = [];
  let end = -Infinity;
  for (const one of asking.toSorted((a, b) => a.lesson.start - b.lesson.start)) {
    const group = groups.at(-1);
    if (group && one.lesson.start < end) group.push(one);
    else groups.push([one]);
    end = Math.max(end, lessonEnd(one.lesson));
  }
  return groups;
}
