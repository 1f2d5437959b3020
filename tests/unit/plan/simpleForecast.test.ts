/** The simple forecast: queues played forward at each person's pace. Figures by hand from the stage minutes 4, 11, 8. */
import { describe, expect, test } from 'vitest';
import { own } from '#core/barn/basics.ts';
import type { Board } from '#core/day/board.ts';
import { evolve } from '#core/day/evolve.ts';
import type { Fact } from '#core/day/ops.ts';
import { simpleForecast } from '#core/plan/simpleForecast.ts';
import { planInput } from '#core/plan/input.ts';
import type { Forecast } from '#core/plan/model.ts';
import { MINUTE_MS } from '#core/time/units.ts';
import { entry, NOON, smallBoard } from '../../properties/day-arbitraries.ts';

function after(board: Board, ...facts: Fact[]): Board {
  return facts.reduce(
    (b, fact, i) => evolve(b, entry(200 + i, fact, { by: 'ada', id: `t${i}`, at: NOON })),
    board,
  );
}

/** Minutes after NOON, of the test's small barn: lessons at 60 and 105, ramp times at 45 (fern, moss) and 90 (sorrel). */
function minutes(at: number | null | undefined): number | null {
  return at === null || at === undefined ? null : (at - NOON) / MINUTE_MS;
}

function foresee(board: Board, nowMinutes = 0): Forecast {
  return simpleForecast(planInput(board, NOON + nowMinutes * MINUTE_MS));
}

const prep = (f: Forecast, id: string) => own(f.preps, id);

describe('needed-by times', () => {
  test('go backwards from the ramp time; feet-by leaves a whole preparation for a stand-in', () => {
    const fern = prep(foresee(smallBoard()), 'fern.1');
    expect(fern?.pieces.map((piece) => minutes(piece.neededBy))).toEqual([26, 37, 45]);
    expect(minutes(fern?.feetBy)).toBe(45 - 23);
  });
});

describe('played forward', () => {
  test('ada does fern; ben, not cleared to tack, does moss as far as he may and ada tacks it', () => {
    const f = foresee(smallBoard());
    expect(minutes(prep(f, 'fern.1')?.ready)).toBe(23);
    // Nobody's work waits until ada has done her own: moss tacked 23 + 8.
    expect(minutes(prep(f, 'moss.1')?.ready)).toBe(31);
    expect(prep(f, 'moss.1')?.pieces.map((piece) => [piece.by, piece.given])).toEqual([
      ['ben', true],
      ['ben', true],
      ['ada', false],
    ]);
  });

  test('a slower person takes longer, and is behind from the piece that ends too late', () => {
    const slow = after(smallBoard(), {
      kind: 'recordSaved',
      saved: {
        table: 'volunteers',
        record: {
          id: 'ada',
          name: 'Ada',
          clearances: ['feet', 'coat', 'tack', 'experienced'],
          private: { pace: 2, usualHours: [] },
        },
      },
    });
    const f = foresee(slow, 5);
    // 5 + 2 × 23 = 51, six minutes after the ramp time of 45.
    expect(minutes(prep(f, 'fern.1')?.ready)).toBe(51);
    expect(prep(f, 'fern.1')?.spareMs).toBe(-6 * MINUTE_MS);
    expect(f.hands['ada']).toMatchObject({ behindMs: 6 * MINUTE_MS, because: 'fern.1:tack' });
    expect(f.hands['ben']?.behindMs).toBe(0);
  });

  test('a stage under way counts from its start, and never promises to be over already', () => {
    const begun = after(smallBoard(), { kind: 'stageStarted', prep: 'fern.1', stage: 'feet' });
    expect(minutes(prep(foresee(begun, 3), 'fern.1')?.pieces[0]?.end)).toBe(4);
    expect(minutes(prep(foresee(begun, 9), 'fern.1')?.pieces[0]?.end)).toBe(10);
  });

  test('a change of tack waits until the horse is out of its lesson', () => {
    const change = prep(foresee(smallBoard()), 'fern.2');
    expect(minutes(change?.pieces[0]?.start)).toBe(90);
    expect(change?.pieces).toHaveLength(1);
  });

  test('nobody works while leading, nor after going home', () => {
    const lead = after(
      smallBoard(),
      { kind: 'volunteerLeft', volunteer: 'ben' },
      {
        kind: 'lessonAdded',
        lesson: {
          id: 'L0',
          name: 'Earlier',
          start: NOON + 25 * MINUTE_MS,
          minutes: 20,
          arena: null,
          instructor: null,
          cancelled: false,
          places: [
            {
              id: 'p1',
              rider: null,
              horse: null,
              tack: null,
              leader: 'ada',
              sideWalkers: [],
              cancelled: false,
            },
          ],
        },
      },
    );
    const fern = prep(foresee(lead), 'fern.1');
    // Free for feet until the ramp time at 10, then from 45 on.
    expect(fern?.pieces.map((piece) => minutes(piece.end))).toEqual([4, 56, 64]);
  });

  test('says why when nobody can do it', () => {
    const gone = after(smallBoard(), { kind: 'volunteerLeft', volunteer: 'ada' });
    expect(prep(foresee(gone), 'fern.1')).toMatchObject({
      ready: null,
      spareMs: null,
      unplanned: 'nobodyCleared',
    });
    const empty = after(gone, { kind: 'volunteerLeft', volunteer: 'ben' });
    expect(prep(foresee(empty), 'moss.1')?.unplanned).toBe('nobodyHere');
    const short = after(smallBoard(), {
      kind: 'volunteerExpected',
      volunteer: 'ada',
      from: null,
      until: NOON + 10 * MINUTE_MS,
    });
    expect(prep(foresee(short), 'fern.1')?.unplanned).toBe('nobodyFree');
  });

  test('somebody expected counts from when they are due, overdue as long again and two minutes at least', () => {
    const due = after(
      smallBoard(),
      { kind: 'volunteerLeft', volunteer: 'ada' },
      { kind: 'volunteerExpected', volunteer: 'cho', from: NOON + 5 * MINUTE_MS, until: null },
    );
    expect(minutes(prep(foresee(due), 'fern.1')?.pieces[2]?.start)).toBeGreaterThanOrEqual(15);
    expect(prep(foresee(due, 6), 'sorrel.1')?.pieces[0]?.by).toBe('cho');
    expect(minutes(prep(foresee(due, 6), 'sorrel.1')?.pieces[0]?.start)).toBeGreaterThanOrEqual(8);
    expect(minutes(prep(foresee(due, 11), 'sorrel.1')?.pieces[0]?.start)).toBeGreaterThanOrEqual(17);
  });
});
