/** From taps to what can be learned. Times by hand. */
import { describe, expect, test } from 'vitest';
import type { Board } from '#core/day/board.ts';
import type { Entry, Fact } from '#core/day/ops.ts';
import { evolve } from '#core/day/evolve.ts';
import { predict, minutesAt } from '#core/plan/durations/predict.ts';
import { dayHistory, type DayHistory } from '#core/plan/history.ts';
import { learnFrom, NO_HISTORY } from '#core/plan/learned.ts';
import { SECOND_MS } from '#core/time/units.ts';
import { entry, smallBoard } from '../../properties/day-arbitraries.ts';
import { minute } from './forecastInputs.ts';

type Tap = readonly [atMinute: number, by: string | null, fact: Fact];

const started = (prep: string, stage: 'feet' | 'coat' | 'tack'): Fact => ({
  kind: 'stageStarted',
  prep,
  stage,
});
const finished = (prep: string, ...stages: ('feet' | 'coat' | 'tack')[]): Fact => ({
  kind: 'stagesFinished',
  prep,
  stages,
});

function seen(taps: readonly Tap[], board: Board = smallBoard()): DayHistory {
  const entries = taps.map(([at, by, fact], i): Entry =>
    entry(i + 1, fact, { at: minute(at), tappedAt: minute(at), by, id: `t${i}` }),
  );
  return dayHistory(entries.reduce(evolve, board), entries);
}

const lengths = (taps: readonly Tap[]) =>
  seen(taps).history.observations.map(({ stage, person, minutes }) => [stage, person, minutes]);
const why = (taps: readonly Tap[]) => seen(taps).leftOut.map(({ piece, because }) => [piece, because]);

describe('a stage', () => {
  test('lasts from its start to its end, each by when it was tapped', () => {
    expect(
      lengths([
        [0, 'ada', started('fern.1', 'feet')],
        [5, 'ada', finished('fern.1', 'feet')],
      ]),
    ).toEqual([['feet', 'ada', 5]]);
  });

  test('begins with the end of the one before when the same person went straight on', () => {
    const straightOn: Tap[] = [
      [0, 'ada', started('fern.1', 'feet')],
      [5, 'ada', finished('fern.1', 'feet')],
      [17, 'ada', finished('fern.1', 'coat')],
    ];
    expect(lengths(straightOn)).toEqual([
      ['feet', 'ada', 5],
      ['coat', 'ada', 12],
    ]);
    const another = straightOn.with(2, [17, 'ben', finished('fern.1', 'coat')]);
    expect(why(another)).toEqual([['fern.1:coat', 'no-start']]);
    const between: Tap[] = [
      ...straightOn.slice(0, 2),
      [8, 'ada', finished('moss.1', 'feet')],
      ...straightOn.slice(2),
    ];
    expect(why(between)).toContainEqual(['fern.1:coat', 'no-start']);
  });

  test('is left out when it was tapped together with another', () => {
    const both: Tap[] = [
      [0, 'ada', started('fern.1', 'feet')],
      [15, 'ada', finished('fern.1', 'feet', 'coat')],
    ];
    expect(why(both)).toEqual([
      ['fern.1:feet', 'several-stages-at-once'],
      ['fern.1:coat', 'several-stages-at-once'],
    ]);
    expect(lengths(both)).toEqual([]);
  });

  test('goes without the time its person was on another horse; without the tap that they are back it is left out', () => {
    const away: Tap[] = [
      [0, 'ada', started('fern.1', 'coat')],
      [3, 'ada', started('moss.1', 'feet')],
      [8, 'ada', started('fern.1', 'coat')],
      [15, 'ada', finished('fern.1', 'coat')],
    ];
    expect(lengths(away)).toEqual([['coat', 'ada', 10]]);
    expect(why(away.toSpliced(2, 1))).toContainEqual(['fern.1:coat', 'pause-unclear']);
  });

  test('is left out when it was taken back, pulled in between, or took absurdly long', () => {
    expect(
      why([
        [0, 'ada', started('fern.1', 'feet')],
        [5, 'ada', finished('fern.1', 'feet')],
        [6, 'ada', { kind: 'undone', op: 't1' }],
      ]),
    ).toEqual([['fern.1:feet', 'undone']]);
    expect(
      why([
        [0, 'ada', started('fern.1', 'feet')],
        [2, 'ben', { kind: 'horsePulled', horse: 'fern', why: 'heat', hold: 'today' }],
        [3, 'ben', { kind: 'horseReleased', horse: 'fern', word: '' }],
        [9, 'ada', finished('fern.1', 'feet')],
      ]),
    ).toEqual([['fern.1:feet', 'pause-unclear']]);
    expect(
      why([
        [0, 'ada', started('fern.1', 'feet')],
        [180, 'ada', finished('fern.1', 'feet')],
      ]),
    ).toEqual([['fern.1:feet', 'beyond-belief']]);
  });

  test('goes without the lesson its person was in, unless it is this horse’s', () => {
    const lead = (horse: string): Board => {
      const board = smallBoard();
      const lesson = board.day.lessons['L1'];
      if (!lesson) throw new Error('no lesson');
      const places = lesson.places.map((place) =>
        place.horse === horse ? { ...place, leader: 'ada' } : place,
      );
      return {
        ...board,
        day: { ...board.day, lessons: { ...board.day.lessons, L1: { ...lesson, places } } },
      };
    };
    // The lesson is at 60 for 30 minutes or so; who leads is due at the ramp time, 15 minutes before.
    const end = smallBoard().day.lessons['L1']?.minutes ?? 0;
    const taps: Tap[] = [
      [40, 'ada', started('sorrel.1', 'coat')],
      [60 + end + 6, 'ada', finished('sorrel.1', 'coat')],
    ];
    expect(seen(taps, lead('moss')).history.observations).toMatchObject([{ minutes: 11 }]);
    const fern: Tap[] = [
      [50, 'ada', started('fern.1', 'coat')],
      [58, 'ada', finished('fern.1', 'coat')],
    ];
    expect(seen(fern, lead('fern')).history.observations).toMatchObject([{ minutes: 8 }]);
  });
});

describe('besides', () => {
  test('the moment from one stage to the next, by whether it is the same horse', () => {
    const { changeovers } = seen([
      [0, 'ada', started('fern.1', 'feet')],
      [4, 'ada', finished('fern.1', 'feet')],
      [4.5, 'ada', started('fern.1', 'coat')],
      [15, 'ada', finished('fern.1', 'coat')],
      [16, 'ada', started('moss.1', 'tack')],
      [30, 'ada', finished('moss.1', 'tack')],
      [50, 'ada', started('sorrel.1', 'coat')],
    ]).history;
    expect(changeovers).toEqual([
      { sameHorse: true, ms: 30 * SECOND_MS },
      { sameHorse: false, ms: 60 * SECOND_MS },
    ]);
  });

  test('how early somebody with nothing else to do takes up a horse', () => {
    const { takeUps } = seen([
      [0, null, { kind: 'volunteerArrived', volunteer: 'cho' }],
      [2, 'cho', started('sorrel.1', 'coat')],
      [20, 'cho', finished('sorrel.1', 'coat')],
      [40, 'cho', started('sorrel.1', 'tack')],
    ]).history;
    // Sorrel's ramp time is at 90. At 2 she had only just come.
    expect(takeUps).toEqual([{ person: 'cho', ms: 50 * 60 * SECOND_MS }]);
  });

  test('stages begun without a tap, and people who did not come', () => {
    const { unseenStarts, noShows } = seen([
      [0, null, { kind: 'volunteerExpected', volunteer: 'cho', from: minute(10), until: null }],
      [4, 'ada', finished('fern.1', 'feet')],
      [5, 'ada', started('fern.1', 'coat')],
      [15, 'ada', finished('fern.1', 'coat')],
    ]).history;
    expect(unseenStarts).toEqual({ count: 1, of: 2 });
    expect(noShows).toEqual({ count: 1, of: 1 });
  });
});

describe('what is learned', () => {
  const barn = smallBoard().barn;
  const coat = (person: string, history = NO_HISTORY) => {
    const ada = barn.volunteers['ada'];
    if (!ada) throw new Error('no ada');
    const slow = { ...ada, private: { pace: 2, usualHours: [] } };
    const learned = learnFrom({ ...barn, volunteers: { ...barn.volunteers, ada: slow } }, history);
    const relative = predict(learned.durations, { stage: 'coat', horse: 'fern', person });
    return minutesAt(relative, 0.5) * (learned.paces[person] ?? 1);
  };

  test('on the first day is the barn’s minutes at each person’s pace', () => {
    expect(coat('ben')).toBeCloseTo(11, 6);
    expect(coat('ada')).toBeCloseTo(22, 6);
  });

  test('moves from there to what was seen: twenty coats of 11 minutes by somebody set down as twice as slow', () => {
    const observations = Array.from({ length: 20 }, () => ({
      stage: 'coat' as const,
      horse: 'moss',
      person: 'ada',
      minutes: 11,
    }));
    expect(coat('ada', { ...NO_HISTORY, observations })).toBeGreaterThan(11);
    expect(coat('ada', { ...NO_HISTORY, observations })).toBeLessThan(14);
  });
});
