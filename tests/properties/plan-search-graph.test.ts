/** The disjunctive graph under moves: never a cycle, and heads and tails as recomputed from the definition. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { compile } from '#core/plan/search/model.ts';
import type { Model } from '#core/plan/search/model.ts';
import { Neighbourhood } from '#core/plan/search/moves.ts';
import { seededRandom } from '#core/plan/search/random.ts';
import { relink } from '#core/plan/search/relink.ts';
import type { Schedule } from '#core/plan/search/schedule.ts';
import { dispatch } from '#core/plan/search/start.ts';

/** A random shop; dense in shared machines, so that wrong moves make cycles at once. */
function modelOf(seed: number, withAbsences: boolean): Model {
  const random = seededRandom(seed);
  const machineCount = 2 + random.below(3);
  const model = compile({
    machineCount,
    absences: Array.from({ length: machineCount }, () =>
      withAbsences
        ? [10, 40].map((from) => ({ from: from + random.below(20), to: from + 22 + random.below(9) }))
        : [],
    ),
    jobs: Array.from({ length: 3 + random.below(5) }, () => ({
      release: random.below(20),
      due: random.below(90),
      weight: 1,
      operations: Array.from({ length: 1 + random.below(5) }, () => ({
        alternatives: Array.from({ length: machineCount }, (_, machine) => ({
          machine,
          time: 1 + random.below(9),
        })),
      })),
    })),
  });
  if (model.kind === 'refused') throw new Error(model.detail);
  return model;
}

/** Depth-first search for a cycle over job and machine arcs, from the sequences alone. */
function isAcyclic(schedule: Schedule): boolean {
  const { model } = schedule;
  const next = Array.from({ length: model.n }, (_, o) =>
    model.jobNext[o]! < model.n ? [model.jobNext[o]!] : [],
  );
  for (let k = 0; k < model.m; k++) {
    const sequence = schedule.sequence.subarray(k * model.n, k * model.n + schedule.length[k]!);
    sequence.forEach((o, i) => {
      const after = sequence[i + 1];
      if (after !== undefined) next[o]!.push(after);
    });
  }
  const state = new Uint8Array(model.n);
  const visit = (o: number): boolean => {
    if (state[o] === 1) return false;
    if (state[o] === 2) return true;
    state[o] = 1;
    const sound = next[o]!.every(visit);
    state[o] = 2;
    return sound;
  };
  return next.every((_, o) => visit(o));
}

/** Lateness, heads and tails computed anew are those kept up to date. */
function expectCurrent(schedule: Schedule): void {
  const anew = schedule.clone();
  expect(anew.evaluate()).toBe(true);
  expect(schedule.lateness).toBe(anew.lateness);
  expect(schedule.head).toEqual(anew.head);
  expect(schedule.tail).toEqual(anew.tail);
}

const cases = fc.record({ seed: fc.nat(1_000_000), withAbsences: fc.boolean() });

test('no insertion of the neighbourhood makes a cycle, and its estimate promises no less than comes', () => {
  fc.assert(
    fc.property(cases, ({ seed, withAbsences }) => {
      const model = modelOf(seed, withAbsences);
      const random = seededRandom(seed);
      const schedule = dispatch(model, 'random', random);
      const moves = new Neighbourhood(model);
      for (let o = 0; o < model.n; o++) {
        for (let k = 0; k < model.m; k++) {
          const found: [place: number, estimate: number][] = [];
          moves.visitInsertions(schedule, o, k, Infinity, (_, __, place, estimate) =>
            found.push([place, estimate]),
          );
          for (const [place, estimate] of found) {
            const trial = schedule.clone();
            expect(trial.relocate(o, k, place)).toBe(true);
            expect(isAcyclic(trial)).toBe(true);
            expectCurrent(trial);
            // Without absences the estimate is at least the way through the operation where it now stands.
            if (!withAbsences) {
              expect(estimate).toBeGreaterThanOrEqual(trial.head[o]! + trial.time[o]! + trial.tail[o]!);
            }
          }
        }
      }
    }),
    { numRuns: 60 },
  );
});

test('no place called safe makes a cycle, through long walks', () => {
  fc.assert(
    fc.property(cases, ({ seed, withAbsences }) => {
      const model = modelOf(seed, withAbsences);
      const random = seededRandom(seed + 1);
      const schedule = dispatch(model, 'leastSlack', random);
      const moves = new Neighbourhood(model);
      for (let i = 0; i < 150; i++) {
        const o = random.below(model.n);
        const k = random.below(model.m);
        expect(schedule.relocate(o, k, moves.randomPlace(schedule, o, k, random))).toBe(true);
        expect(isAcyclic(schedule)).toBe(true);
        expectCurrent(schedule);
      }
    }),
    { numRuns: 60 },
  );
});

test('a move that contradicts itself is noticed', () => {
  const model = compile({
    machineCount: 1,
    jobs: [
      {
        release: 0,
        due: 0,
        weight: 1,
        operations: [1, 2].map((time) => ({ alternatives: [{ machine: 0, time }] })),
      },
    ],
  });
  if (model.kind === 'refused') throw new Error(model.detail);
  const schedule = dispatch(model, 'earliestDue', seededRandom(1));
  expect(schedule.clone().relocate(0, 0, 1)).toBe(false);
  const swapped = schedule.clone();
  swapped.move(0, 0, 1);
  expect(isAcyclic(swapped)).toBe(false);
  expect(swapped.computeHeads()).toBe(false);
});

test('between two schedules there is always a third', () => {
  fc.assert(
    fc.property(cases, fc.integer({ min: 0, max: 1_000 }), ({ seed, withAbsences }, share) => {
      const model = modelOf(seed, withAbsences);
      const random = seededRandom(seed);
      const child = relink(
        dispatch(model, 'random', random),
        dispatch(model, 'shortest', random),
        share,
        random,
      );
      expect(isAcyclic(child)).toBe(true);
      expectCurrent(child);
    }),
    { numRuns: 100 },
  );
});
