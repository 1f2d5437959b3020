/** Reads the data files beside it into problems. */
import type { Operation, Problem } from '#core/plan/search/problem.ts';

/** An operation as pairs of machine (from 0) and time. */
type Row = [machine: number, time: number][];

function operation(row: Row): Operation {
  return { alternatives: row.map(([machine, time]) => ({ machine, time })) };
}

export interface PublishedInstance {
  readonly name: string;
  readonly source: string;
  readonly optimum: number;
  readonly problem: Problem;
}

export function publishedInstances(text: string): PublishedInstance[] {
  const list = JSON.parse(text) as {
    name: string;
    source: string;
    optimum: number;
    machines: number;
    jobs: Row[][];
  }[];
  return list.map(({ name, source, optimum, machines, jobs }) => ({
    name,
    source,
    optimum,
    problem: {
      machineCount: machines,
      jobs: jobs.map((rows) => ({ release: 0, due: 0, weight: 1, operations: rows.map(operation) })),
    },
  }));
}

export interface DueCase {
  readonly name: string;
  readonly maxLateness: number;
  readonly problem: Problem;
}

export function dueCases(text: string): DueCase[] {
  const { cases } = JSON.parse(text) as {
    cases: {
      name: string;
      machines: number;
      maxLateness: number;
      jobs: { ops: Row[]; release: number; due: number }[];
    }[];
  };
  return cases.map(({ name, machines, maxLateness, jobs }) => ({
    name,
    maxLateness,
    problem: {
      machineCount: machines,
      jobs: jobs.map(({ ops, release, due }) => ({
        release,
        due,
        weight: 1,
        operations: ops.map(operation),
      })),
    },
  }));
}
