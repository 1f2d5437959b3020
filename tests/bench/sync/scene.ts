/** A large barn: 40 horses in ten lessons, 12 people; and the work every system is given. */
import type { Horse } from '#core/barn/horse.ts';
import type { Lesson } from '#core/barn/lesson.ts';
import type { Board } from '#core/day/board.ts';
import { emptyBoard } from '#core/day/emptyBoard.ts';
import { evolve } from '#core/day/evolve.ts';
import type { Fact, Op } from '#core/day/ops.ts';
import { HOUR_MS } from '#core/time/units.ts';
import type { Change } from './change.ts';

/** 2026-05-11 08:00 in Denver; the barn's clock stands here when a hub starts. */
export const MORNING = Date.UTC(2026, 4, 11, 14, 0);

const HORSES = 40;
const PEOPLE = 12;
const PLACES = 4;

const horse = (i: number): Horse => ({
  id: `horse${i}`,
  name: `Horse ${i}`,
  stall: `stall${i}`,
  feet: { LF: 'shod', LH: 'barefoot', RF: 'shod', RH: 'barefoot' },
  tackLists: [{ id: 't1', name: 'English', items: ['Pad', 'Saddle', 'Girth', 'Bridle'], kg: 9 }],
  experiencedFor: [],
  notes: 'Ties well. Stands for the farrier.',
  cautions: [],
  holds: [],
  private: { weight: { kg: 500, how: 'scale' }, pony: false, condition: 5, loadLimit: null },
});

const lesson = (i: number): Lesson => ({
  id: `lesson${i}`,
  name: `Lesson ${i}`,
  start: MORNING + (2 + i) * HOUR_MS,
  minutes: 45,
  arena: null,
  instructor: null,
  cancelled: false,
  places: Array.from({ length: PLACES }, (_, p) => ({
    id: `p${p}`,
    rider: `rider${i * PLACES + p}`,
    horse: `horse${i * PLACES + p}`,
    tack: 't1',
    leader: null,
    sideWalkers: [],
    cancelled: false,
  })),
});

export function scene(): Board {
  const horses = Array.from({ length: HORSES }, (_, i) => i);
  const people = Array.from({ length: PEOPLE }, (_, i) => i);
  const facts: Fact[] = [
    ...horses.flatMap((i): Fact[] => [
      {
        kind: 'recordSaved',
        saved: { table: 'stalls', record: { id: `stall${i}`, name: `${i}`, metres: 4 * i } },
      },
      { kind: 'recordSaved', saved: { table: 'horses', record: horse(i) } },
      {
        kind: 'recordSaved',
        saved: { table: 'riders', record: { id: `rider${i}`, callName: `Rider ${i}` } },
      },
    ]),
    ...people.map((i): Fact => ({
      kind: 'recordSaved',
      saved: {
        table: 'volunteers',
        record: {
          id: `person${i}`,
          name: `Person ${i}`,
          clearances: ['feet', 'coat', 'tack'],
          private: { pace: 1, usualHours: [] },
        },
      },
    })),
    { kind: 'dayOpened', date: '2026-05-11' },
    ...Array.from({ length: HORSES / PLACES }, (_, i): Fact => ({ kind: 'lessonAdded', lesson: lesson(i) })),
    ...people.map((i): Fact => ({ kind: 'volunteerArrived', volunteer: `person${i}` })),
  ];
  return facts.reduce(
    (board, fact, i) =>
      evolve(board, {
        seq: i + 1,
        at: MORNING,
        id: `scene${i}`,
        device: 'bench',
        by: null,
        tappedAt: MORNING,
        facts: [fact],
        why: null,
      }),
    emptyBoard('Bench barn', 'America/Denver'),
  );
}

/**
 * The n-th change of tablet `index`: somebody goes over to a horse and begins a stage. The board does not grow by it. Each
 * tablet has two tiles of its own, so that no system has to settle a conflict that another does not see.
 */
export function change(index: number, n: number): Change {
  const tile = `horse${(2 * index + (n % 2)) % HORSES}`;
  const id = `c${index}-${n}`;
  const op: Op = {
    id,
    device: 'bench',
    by: `person${(index + n) % PEOPLE}`,
    tappedAt: MORNING,
    fact: { kind: 'stageStarted', prep: `${tile}.1`, stage: n % 4 < 2 ? 'feet' : 'coat' },
  };
  return { id, tile, op };
}
