import { describe, expect, it } from 'vitest';
import { asks, isCleared } from '#core/barn/stage.ts';
import { Board } from '#core/day/board.ts';
import { pieceParts } from '#core/day/pieces.ts';
import { lessonEnd, liveBookings } from '#core/day/preps.ts';
import { afternoonStart, generateBarn } from '../../../demo/generate.ts';
import { simulate } from '../../../demo/simulate.ts';

const DATE = '2026-05-12';
const SIZE = { horses: 60, people: 40, lessons: 12, date: DATE };

describe('a generated barn', () => {
  it('has the size asked for and is a board the hub takes', () => {
    const board = generateBarn({ ...SIZE, seed: 1 });
    expect(Board.safeParse(JSON.parse(JSON.stringify(board))).success).toBe(true);
    expect(Object.keys(board.barn.horses)).toHaveLength(60);
    expect(Object.keys(board.barn.volunteers)).toHaveLength(40);
    expect(Object.keys(board.day.lessons)).toHaveLength(12);
    const names = Object.values(board.barn.horses).map(({ name }) => name);
    expect(new Set(names).size).toBe(60);
  });

  it('is the same from the same seed, and another from another', () => {
    expect(generateBarn({ ...SIZE, seed: 5 })).toEqual(generateBarn({ ...SIZE, seed: 5 }));
    expect(generateBarn({ ...SIZE, seed: 5 })).not.toEqual(generateBarn({ ...SIZE, seed: 6 }));
  });

  // Nature: nobody and no horse is in two lessons at one time.
  it.each([1, 2, 3, 4, 5, 6])(
    'asks nobody to be in two places at once, nor to do what they may not (seed %d)',
    (seed) => {
      const { barn, day } = generateBarn({ ...SIZE, seed });
      const parts = liveBookings(day).flatMap(({ lesson, place }) =>
        [place.horse, place.leader, ...place.sideWalkers].flatMap((id) =>
          id === null ? [] : [{ id, lesson, place }],
        ),
      );
      for (const a of parts) {
        for (const b of parts) {
          if (a === b || a.id !== b.id) continue;
          expect(a.lesson.start < lessonEnd(b.lesson) && b.lesson.start < lessonEnd(a.lesson)).toBe(false);
        }
      }
      for (const [id, { queue }] of Object.entries(day.hands)) {
        for (const piece of queue) {
          const found = pieceParts(piece);
          const horse = barn.horses[day.preps[found?.prep ?? '']?.horse ?? ''];
          const asked = found && horse ? asks(horse.experiencedFor, found.stage) : ['experienced' as const];
          expect(isCleared(barn.volunteers[id]?.clearances ?? [], asked)).toBe(true);
        }
      }
    },
  );

  it('can be lived through', () => {
    const board = generateBarn({ ...SIZE, seed: 1 });
    const day = simulate({ board, seed: 1, from: afternoonStart(DATE), script: [] });
    expect(day.entries.length).toBeGreaterThan(150);
    expect(Board.safeParse(day.board).success).toBe(true);
  });

  it('can be small', () => {
    const board = generateBarn({ horses: 2, people: 1, lessons: 1, seed: 1, date: DATE });
    expect(Object.values(board.day.lessons).flatMap(({ places }) => places)).toHaveLength(2);
  });
});
