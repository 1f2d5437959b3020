/** List scheduling (Graham 1966): whenever a machine is free it takes the first ready task of the list. */

export interface Task {
  readonly time: number;
  /** Indexes of tasks that must end first. */
  readonly after: readonly number[];
}

export interface ListedTask {
  readonly machine: number;
  readonly start: number;
  readonly end: number;
}

/**
 * Runs tasks on `machineCount` identical machines by the list; machines are numbered from 0 and the lowest
 * free one is taken. Null when the list leaves a task out or the precedence is circular.
 */
export function listSchedule(
  tasks: readonly Task[],
  machineCount: number,
  list: readonly number[],
): readonly ListedTask[] | null {
  const result = tasks.map((): ListedTask | undefined => undefined);
  const free = Array.from({ length: machineCount }, () => 0);
  const pending = [...list];
  let clock = 0;
  while (pending.length > 0) {
    const machine = free.findIndex((at) => at <= clock);
    const next = pending.findIndex((i) =>
      tasks[i]?.after.every((before) => (result[before]?.end ?? Infinity) <= clock),
    );
    if (machine >= 0 && next >= 0) {
      const [task = -1] = pending.splice(next, 1);
      const end = clock + tasks[task]!.time;
      result[task] = { machine, start: clock, end };
      free[machine] = end;
      continue;
    }
    // Nothing can start now: on to the next end.
    const ends = result.flatMap((task) => (task !== undefined && task.end > clock ? [task.end] : []));
    if (ends.length === 0) return null;
    clock = Math.min(...ends);
  }
  return result.every((task) => task !== undefined) ? result : null;
}
