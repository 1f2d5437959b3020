/** Every option, on days sensible or not, with the forecast's own readiness: taken by the hub, and within the rules. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { own } from '#core/barn/basics.ts';
import { asks, isCleared } from '#core/barn/stage.ts';
import type { Board } from '#core/day/board.ts';
import { decide } from '#core/day/decide.ts';
import { evolve } from '#core/day/evolve.ts';
import { OpFact, type Op } from '#core/day/ops.ts';
import { blockedForDoor, forDoor } from '#core/plan/standIns/forDoor.ts';
import type { Block, StandIns, StandInsTaken } from '#core/plan/standIns/model.ts';
import { readinessByTrial } from '#core/plan/standIns/readiness.ts';
import { standIns } from '#core/plan/standIns/standIns.ts';
import {
  sayAgainst,
  sayBlock,
  sayFor,
  saySideEffect,
  sayTask,
  sayUnblock,
  STAND_INS,
} from '#core/words/en/plan.ts';
import { MINUTE_MS } from '#core/time/units.ts';
import { NOON } from './day-arbitraries.ts';
import { asked, madeUpReadiness, type Asked } from './stand-ins-arbitraries.ts';
import { faults, keyOf, planOf } from './stand-ins-checker.ts';

const SIZE = { horses: 7, lessons: 4, places: 3 };
/** Few draws: whether an option is sound does not hang on how fine its chance is. */
const DRAWS = 16;

function ask({ board, affected }: Asked): StandIns {
  return standIns(board, NOON, affected, readinessByTrial(board, NOON, { draws: DRAWS }));
}

function opOf(fact: StandInsTaken): Op {
  return { id: 'take', device: 'd1', by: null, tappedAt: NOON, fact };
}

function taken(board: Board, fact: StandInsTaken): Board {
  const { facts, why } = decide(board, opOf(fact));
  expect(why).toBeNull();
  return evolve(board, { ...opOf(fact), seq: 1, at: NOON, facts: [...facts], why });
}

describe('an option', () => {
  test('is accepted by the hub as it is, and puts each horse where it says', () => {
    let options = 0;
    fc.assert(
      fc.property(asked(SIZE), (day) => {
        for (const option of ask(day).options) {
          options += 1;
          expect(OpFact.parse(option.fact)).toEqual(option.fact);
          const plan = planOf(taken(day.board, option.fact));
          for (const change of option.changes) expect(plan.get(keyOf(change))).toBe(change.horse);
          const changed = new Set(option.fact.changes.map(keyOf));
          for (const [key, horse] of planOf(day.board))
            if (!changed.has(key)) expect(plan.get(key)).toBe(horse);
        }
      }),
      { numRuns: 150 },
    );
    expect(options).toBeGreaterThan(40);
  });

  test('breaks no rule, and nobody settled loses a horse for nothing', () => {
    fc.assert(
      fc.property(asked(SIZE), (day) => {
        const readyChance = readinessByTrial(day.board, NOON, { draws: DRAWS });
        const before = planOf(day.board);
        const asking = new Set(day.affected.map(keyOf));
        for (const option of ask(day).options) {
          const plan = planOf(taken(day.board, option.fact));
          expect(faults(day.board, plan, readyChance)).toEqual([]);
          for (const [key, horse] of before)
            if (!asking.has(key) && horse !== null) expect(plan.get(key)).not.toBeNull();
          for (const { readiness } of option.changes)
            expect(readiness.spareMs ?? 0).toBeGreaterThanOrEqual(0);
        }
      }),
      { numRuns: 100 },
    );
  });

  test('gives work only to people who are here and cleared for all of it', () => {
    let tasks = 0;
    fc.assert(
      fc.property(asked(SIZE), (day) => {
        for (const option of ask(day).options) {
          const next = taken(day.board, option.fact);
          for (const task of option.tasks) {
            tasks += 1;
            expect(own(day.board.day.hands, task.to)?.presence.state).toBe('here');
            const has = day.board.barn.volunteers[task.to]?.clearances ?? [];
            const horse = day.board.barn.horses[task.horse];
            for (const stage of task.stages)
              expect(isCleared(has, asks(horse?.experiencedFor ?? [], stage))).toBe(true);
            const queue = next.day.hands[task.to]?.queue ?? [];
            const stages = queue.filter((piece) => piece.startsWith(`${task.horse}.`));
            expect(stages.length).toBeGreaterThanOrEqual(task.stages.length);
          }
          expect(option.fact.work.length).toBe(option.tasks.length);
        }
      }),
      { numRuns: 100 },
    );
    expect(tasks).toBeGreaterThan(20);
  });

  test('comes the same each time, and leaves the board as it was', () => {
    fc.assert(
      fc.property(asked(SIZE), (day) => {
        const before = structuredClone(day.board);
        const first = ask(day);
        expect(ask(day)).toEqual(first);
        expect(day.board).toEqual(before);
      }),
      { numRuns: 25 },
    );
  });
});

describe('what would lift a block', () => {
  test('is true: with it done, that block is gone', () => {
    const lifted = new Map<string, number>();
    fc.assert(
      fc.property(asked({ horses: 4, lessons: 3, places: 2 }), fc.nat(), (day, seed) => {
        const readyChance = madeUpReadiness(seed);
        const now = standIns(day.board, NOON, day.affected, readyChance);
        if (now.options.length > 0) return;
        for (const { horse, blocks, ...ref } of now.blocked) {
          for (const block of blocks) {
            const mended = mend(day.board, block, horse);
            if (!mended) continue;
            lifted.set(block.code, (lifted.get(block.code) ?? 0) + 1);
            const then = standIns(mended, NOON, day.affected, readyChance);
            if (
              then.options.some((one) =>
                one.changes.some((c) => c.horse === horse && keyOf(c) === keyOf(ref)),
              )
            )
              continue;
            if (then.options.length > 0) continue;
            const left = then.blocked.find((one) => one.horse === horse && keyOf(one) === keyOf(ref));
            expect(left?.blocks.filter((one) => JSON.stringify(one) === JSON.stringify(block))).toEqual([]);
            expect(left?.blocks.map((one) => one.code)).not.toContain(block.code);
          }
        }
      }),
      { numRuns: 400 },
    );
    expect([...lifted.keys()].toSorted()).toEqual(
      expect.arrayContaining(['finding', 'held', 'no-tack', 'workload']),
    );
  });
});

/** The board with the unblock done by hand; null for those that are a person's to judge or change the clock. */
function mend(board: Board, { unblock }: Block, id: string): Board | null {
  const horse = board.barn.horses[id];
  if (!unblock || !horse) return null;
  const withHorse = (next: typeof horse): Board => ({
    ...board,
    barn: { ...board.barn, horses: { ...board.barn.horses, [id]: next } },
  });
  switch (unblock.do) {
    case 'release':
      return {
        ...withHorse({ ...horse, holds: [] }),
        findings: board.findings.map((note) => (note.horse === id ? { ...note, settled: true } : note)),
      };
    case 'readFindings':
      return {
        ...board,
        findings: board.findings.map((note) =>
          unblock.findings.includes(note.id) ? { ...note, read: [{ by: 'v0', at: NOON }] } : note,
        ),
      };
    case 'lighterTack':
      return withHorse({ ...horse, tackLists: horse.tackLists.filter((list) => list.id === unblock.tack) });
    case 'farrierVisit':
      return withHorse({ ...horse, farrierOn: board.day.date ?? '2026-05-11' });
    case 'addTackList':
      return withHorse({ ...horse, tackLists: [{ id: 't9', name: 'Plain', items: [], kg: 5 }] });
    case 'giveUp': {
      const gone = new Set(unblock.places.map(keyOf));
      const lessons = Object.fromEntries(
        Object.entries(board.day.lessons).map(([key, lesson]) => [
          key,
          {
            ...lesson,
            places: lesson.places.map((place) =>
              gone.has(`${key}/${place.id}`) ? { ...place, horse: null } : place,
            ),
          },
        ]),
      );
      return { ...board, day: { ...board.day, lessons } };
    }
    case 'delayLesson':
    case 'askInstructor':
    case 'mendRecord':
    case 'freeFirst':
      return null;
  }
}

test('the delay asked for is the lateness, in whole minutes and never less', () => {
  fc.assert(
    fc.property(asked({ horses: 4, lessons: 2, places: 2 }), fc.nat(), (day, seed) => {
      const readyChance = madeUpReadiness(seed);
      for (const { horse, blocks, ...ref } of standIns(day.board, NOON, day.affected, readyChance).blocked) {
        for (const { unblock } of blocks) {
          if (unblock?.do !== 'delayLesson') continue;
          const { spareMs } = readyChance(horse, ref, null);
          const late = -(spareMs ?? 0);
          expect(unblock.minutes * MINUTE_MS).toBeGreaterThanOrEqual(late);
          expect((unblock.minutes - 1) * MINUTE_MS).toBeLessThan(late);
        }
      }
    }),
    { numRuns: 200 },
  );
});

describe('at the arena door', () => {
  /** Odd enough not to turn up in ids, times or chances by accident. */
  const secretly = ({ board, affected }: Asked, marks: { kg: number; name: string }): Asked => ({
    affected,
    board: {
      ...board,
      barn: {
        ...board.barn,
        riders: Object.fromEntries(
          Object.entries(board.barn.riders).map(([id, rider]) => [
            id,
            {
              ...rider,
              callName: `${marks.name}-call`,
              private: rider.private && {
                ...rider.private,
                weightKg: rider.private.weightKg === null ? null : marks.kg,
                fullName: `${marks.name}-full`,
                needs: `${marks.name}-needs`,
              },
            },
          ]),
        ),
      },
    },
  });

  test('no name, need, weight or figure of a rider is left in what is shown', () => {
    fc.assert(
      fc.property(asked(SIZE), fc.integer({ min: 20_001, max: 99_999 }), (day, kg) => {
        const weight = kg / 1013;
        const { options, blocked } = ask(secretly(day, { kg: weight, name: 'Zyx' }));
        const shown = JSON.stringify([options.map(forDoor), blocked.map(blockedForDoor)]);
        expect(shown).not.toContain('Zyx');
        expect(shown).not.toContain(String(weight));
        expect(shown).not.toMatch(/kg|limit|load|weight|approved|rider|balance|"code"/i);
      }),
      { numRuns: 60 },
    );
  });

  test('every kind of no reads the same, and nothing but these fields is there', () => {
    fc.assert(
      fc.property(asked(SIZE), (day) => {
        const { options, blocked } = ask(day);
        for (const one of options.flatMap(forDoor)) {
          expect(Object.keys(one).toSorted()).toEqual([
            'chance',
            'horse',
            'horseName',
            'lesson',
            'place',
            'ready',
          ]);
        }
        for (const one of blocked.map(blockedForDoor)) {
          expect(one).toEqual({
            lesson: one.lesson,
            place: one.place,
            horse: one.horse,
            horseName: one.horseName,
            reason: 'not-this-pair',
          });
        }
      }),
      { numRuns: 60 },
    );
  });
});

test('every reason, block and way out has a sentence, and the last word is the instructor’s', () => {
  expect(STAND_INS.decides).toContain('instructor decides');
  fc.assert(
    fc.property(asked(SIZE), (day) => {
      const { options, blocked } = ask(day);
      const nameOf = (id: string): string => `<${id}>`;
      const said = [
        ...options.flatMap((one) => [
          ...one.changes.flatMap((change) => [...change.for.map(sayFor), ...change.against.map(sayAgainst)]),
          ...one.sideEffects.map((effect) => saySideEffect(effect, nameOf)),
          ...one.tasks.map((task) => sayTask(task, nameOf)),
        ]),
        ...blocked.flatMap(({ blocks }) =>
          blocks.flatMap((block) => [
            sayBlock(block, nameOf),
            ...(block.unblock ? [sayUnblock(block.unblock, nameOf)] : []),
          ]),
        ),
      ];
      for (const sentence of said) {
        expect(sentence).toMatch(/^[A-Z0-9<].*\.$/);
        expect(sentence).not.toMatch(/undefined|NaN|null|\[object/);
        expect(sentence.length).toBeLessThan(120);
      }
    }),
    { numRuns: 60 },
  );
});
