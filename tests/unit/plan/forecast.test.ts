/** The forecast. Figures by hand from the stage minutes 4, 11, 8 where stages take no chance; else from the model. */
import { describe, expect, test } from 'vitest';
import { own } from '#core/barn/basics.ts';
import type { Board } from '#core/day/board.ts';
import { Forecast } from '#core/plan/model.ts';
import { forecast } from '#core/plan/forecast.ts';
import { minutesAt, minutesAtGiven, predict } from '#core/plan/durations/predict.ts';
import { planInput } from '#core/plan/input.ts';
import { learnedNothing } from '#core/plan/learned.ts';
import { MINUTE_MS } from '#core/time/units.ts';
import { smallBoard } from '../../properties/day-arbitraries.ts';
import { after, minute, minutes, noChance } from './forecastInputs.ts';

function sure(board: Board, now = 0): Forecast {
  return forecast(planInput(board, minute(now), noChance(board)));
}

function unsure(board: Board, now = 0): Forecast {
  return forecast(planInput(board, minute(now)));
}

const prep = (f: Forecast, id: string) => own(f.preps, id);

describe('where stages take no chance', () => {
  test('needed-by times go backwards from the ramp time; feet-by leaves a whole preparation for a stand-in', () => {
    const fern = prep(sure(smallBoard()), 'fern.1');
    expect(fern?.pieces.map((piece) => minutes(piece.neededBy))).toEqual([26, 37, 45]);
    expect(minutes(fern?.feetBy)).toBe(45 - 23);
  });

  test('ada does fern and then tacks moss, which ben is not cleared for', () => {
    const f = sure(smallBoard());
    expect(minutes(prep(f, 'fern.1')?.ready)).toBeCloseTo(23, 2);
    expect(minutes(prep(f, 'moss.1')?.ready)).toBeCloseTo(31, 2);
    expect(prep(f, 'moss.1')?.pieces.map((piece) => [piece.by, piece.given])).toEqual([
      ['ben', true],
      ['ben', true],
      ['ada', false],
    ]);
  });

  test('a horse out in a lesson waits for its end; a tacked one is ready since its last mark', () => {
    expect(minutes(prep(sure(smallBoard()), 'fern.2')?.pieces[0]?.start)).toBe(90);
    const tacked = after(smallBoard(), {
      kind: 'stagesFinished',
      prep: 'moss.1',
      stages: ['feet', 'coat', 'tack'],
    });
    expect(prep(sure(tacked, 10), 'moss.1')).toMatchObject({
      chance: 1,
      spareMs: 45 * MINUTE_MS,
      pieces: [],
    });
  });

  test('nobody takes a horse up before the barn’s time for it', () => {
    const board = smallBoard();
    const rules = { ...board.barn.rules, earliestMinutes: 30 };
    const f = sure({ ...board, barn: { ...board.barn, rules } });
    expect(minutes(prep(f, 'fern.1')?.pieces[0]?.start)).toBe(15);
  });

  test('who is to lead a horse helps with it in the lesson’s first minutes, whoever it was given to', () => {
    const led = after(smallBoard(), {
      kind: 'volunteerExpected',
      volunteer: 'ada',
      from: minute(0),
      until: null,
    });
    const lesson = own(led.day.lessons, 'L1');
    if (!lesson) throw new Error('no lesson');
    const lessons = {
      ...led.day.lessons,
      L1: {
        ...lesson,
        places: lesson.places.map((place) => (place.horse === 'fern' ? { ...place, leader: 'ada' } : place)),
      },
    };
    const board = { ...led, day: { ...led.day, lessons } };
    // At 40 ada has coat and tack of fern left, 40–51 and 51–59, and is due with fern from 55 on.
    const begun = after(board, { kind: 'stagesFinished', prep: 'fern.1', stages: ['feet'] });
    const fern = prep(sure(begun, 40), 'fern.1');
    expect(minutes(fern?.ready)).toBeCloseTo(59, 2);
  });
});

describe('chance', () => {
  test('of a single stage is what was learned of it: p10, median and p90, also when it is under way', () => {
    const done = after(smallBoard(), { kind: 'stagesFinished', prep: 'fern.1', stages: ['feet', 'coat'] });
    const board = after(done, { kind: 'stageStarted', prep: 'fern.1', stage: 'tack' });
    const tack = predict(learnedNothing(board.barn.rules).durations, {
      stage: 'tack',
      horse: 'fern',
      person: 'ada',
    });
    const now = prep(unsure(board), 'fern.1');
    const later = prep(unsure(board, 9), 'fern.1');
    for (const [p, at] of [
      [0.1, 'p10'],
      [0.5, 'ready'],
      [0.9, 'p90'],
    ] as const) {
      // Within the width of one stratum of the draws.
      expect(minutes(now?.[at]) ?? 0).toBeCloseTo(minutesAt(tack, p), 0);
      expect(minutes(later?.[at]) ?? 0).toBeCloseTo(minutesAtGiven(tack, 9, p), 0);
    }
  });

  test('is one half where the median falls on the ramp time', () => {
    const board = after(smallBoard(), { kind: 'stagesFinished', prep: 'fern.1', stages: ['feet', 'coat'] });
    const begun = after(board, { kind: 'stageStarted', prep: 'fern.1', stage: 'tack' });
    const input = planInput(begun, minute(0));
    const works = input.works.map((work) => ({ ...work, rampTime: minute(8) }));
    expect(prep(forecast({ ...input, works }), 'fern.1')?.chance).toBeCloseTo(0.5, 1);
  });

  test('of a lesson is that of all its horses together, so never above any of theirs', () => {
    const f = unsure(smallBoard(), 15);
    const lesson = own(f.lessons, 'L1');
    const chances = ['fern.1', 'moss.1'].map((id) => prep(f, id)?.chance ?? 0);
    expect(lesson?.chance).toBeGreaterThan(0);
    expect(lesson?.chance).toBeLessThanOrEqual(Math.min(...chances));
    expect(lesson?.ready).toBeGreaterThanOrEqual(
      Math.max(...['fern.1', 'moss.1'].map((id) => prep(f, id)?.ready ?? 0)),
    );
  });

  test('of a lesson with a rider without a horse is none', () => {
    const none = after(smallBoard(), {
      kind: 'placeHorseChanged',
      lesson: 'L1',
      place: 'p1',
      horse: null,
      tack: null,
    });
    expect(own(unsure(none).lessons, 'L1')).toMatchObject({ chance: 0, ready: null, word: 'noHorse' });
    const pulled = after(smallBoard(), { kind: 'horsePulled', horse: 'moss', why: 'heat', hold: 'vet' });
    expect(own(unsure(pulled).lessons, 'L1')).toMatchObject({ chance: 0, ready: null, word: 'pulled' });
  });

  test('falls while somebody expected does not come', () => {
    const due = after(
      smallBoard(),
      { kind: 'volunteerLeft', volunteer: 'ada' },
      { kind: 'volunteerExpected', volunteer: 'cho', from: minute(0), until: null },
    );
    const chances = [1, 4, 8, 12].map((now) => prep(unsure(due, now), 'sorrel.1')?.chance ?? 1);
    expect(chances).toEqual(chances.toSorted((a, b) => b - a));
  });

  test('of more draws comes to nearly the same', () => {
    const input = planInput(smallBoard(), minute(15));
    const few = forecast(input);
    const many = forecast(input, { draws: 4096, seed: 2 });
    for (const id of Object.keys(few.preps)) {
      // Three standard deviations of a share of 256 draws: 3 / (2 √256).
      expect(Math.abs((prep(few, id)?.chance ?? 0) - (prep(many, id)?.chance ?? 0))).toBeLessThan(0.094);
    }
  });
});

describe('what cannot be forecast', () => {
  test('says why', () => {
    const gone = after(smallBoard(), { kind: 'volunteerLeft', volunteer: 'ada' });
    expect(prep(unsure(gone), 'fern.1')).toMatchObject({
      ready: null,
      spareMs: null,
      p90: null,
      chance: 0,
      unplanned: 'nobodyCleared',
    });
    const empty = after(gone, { kind: 'volunteerLeft', volunteer: 'ben' });
    expect(prep(unsure(empty), 'moss.1')?.unplanned).toBe('nobodyHere');
    const short = after(smallBoard(), {
      kind: 'volunteerExpected',
      volunteer: 'ada',
      from: null,
      until: minute(10),
    });
    expect(prep(unsure(short), 'fern.1')?.unplanned).toBe('nobodyFree');
  });

  test.each([0, 1e300])(
    'numbers that cannot be are left out by name, and the rest is forecast: a pace of %d',
    (pace) => {
      const input = planInput(smallBoard(), minute(0));
      const works = input.works.map((work) => (work.prep === 'fern.1' ? { ...work, rampTime: NaN } : work));
      const workers = input.workers.map((one) => (one.id === 'ben' ? { ...one, pace } : one));
      const f = forecast({ ...input, works, workers });
      expect(f.leftOut).toEqual([
        { what: 'prep', id: 'fern.1', why: 'badTime' },
        { what: 'person', id: 'ben', why: 'badPace' },
      ]);
      expect(prep(f, 'moss.1')?.ready).not.toBeNull();
      expect(Forecast.safeParse(f).error).toBeUndefined();
    },
  );

  test('a stage without any number for its length says so', () => {
    const input = planInput(smallBoard(), minute(0));
    const { durations } = input.learned;
    const stages = { ...durations.stages, tack: { ...durations.stages.tack, mean: NaN } };
    const broken = { ...input.learned, durations: { ...durations, stages } };
    const works = input.works.map((work) => ({
      ...work,
      pieces: work.pieces.map((piece) => ({
        ...piece,
        lengthMs: piece.stage === 'tack' ? 0 : piece.lengthMs,
      })),
    }));
    const f = forecast({ ...input, learned: broken, works });
    expect(prep(f, 'fern.1')).toMatchObject({ unplanned: 'badLength', ready: null });
    expect(prep(f, 'fern.1')?.pieces.map((piece) => piece.end !== null)).toEqual([true, true, false]);
  });

  test('a due time long past is forecast as late, not dropped', () => {
    const f = unsure(smallBoard(), 62);
    expect(prep(f, 'fern.1')).toMatchObject({ chance: 0 });
    expect(prep(f, 'fern.1')?.spareMs).toBeLessThan(-15 * MINUTE_MS);
  });
});
