/** The coordinator's figures: the axis, blocks, where work goes in a queue, and before against after. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { own } from '#core/barn/basics.ts';
import { Sequence } from '#core/day/sequence.ts';
import { coordinatorView } from '#core/day/views/coordinator.ts';
import { forecast } from '#core/plan/forecast.ts';
import { planInput } from '#core/plan/input.ts';
import { demoBoard } from '../../../demo/day.ts';
import './english.ts';
import { at, axisFor, ticks } from '../../../kiosk/src/lib/parts/coordinator/axis.ts';
import { compare } from '../../../kiosk/src/lib/parts/coordinator/compare.ts';
import { groupsOf } from '../../../kiosk/src/lib/parts/coordinator/groups.ts';
import { placeInQueue } from '../../../kiosk/src/lib/parts/coordinator/queue.ts';
import { sayRecent, toTakeBack } from '../../../kiosk/src/lib/parts/coordinator/recent.ts';

const MINUTE = 60_000;
const BOARD = demoBoard('2026-05-12');
const START = Math.min(...Object.values(BOARD.day.lessons).map((lesson) => lesson.start)) - 45 * MINUTE;
const FORECAST = forecast(planInput(BOARD, START));
const VIEW = coordinatorView(BOARD, FORECAST, START);

describe('axis', () => {
  it('holds now, runs in quarter hours, and keeps every instant on it', () => {
    const times = fc.array(fc.integer({ min: START - 10 * 60 * MINUTE, max: START + 10 * 60 * MINUTE }));
    fc.assert(
      fc.property(times, (list) => {
        const axis = axisFor(START, list);
        expect(axis.from).toBeLessThan(START);
        expect(axis.until).toBeGreaterThan(START);
        expect(axis.until - axis.from).toBeLessThanOrEqual(2.75 * 60 * MINUTE);
        for (const tick of ticks(axis)) expect(tick % (15 * MINUTE)).toBe(0);
        for (const time of list) {
          expect(at(axis, time)).toBeGreaterThanOrEqual(0);
          expect(at(axis, time)).toBeLessThanOrEqual(100);
        }
      }),
    );
  });
});

describe('groupsOf', () => {
  it('draws every predicted piece of the axis once, in order of time', () => {
    const axis = axisFor(START, [START + 150 * MINUTE]);
    for (const lane of VIEW.lanes) {
      const drawn = groupsOf(lane, axis).flatMap((group) => group.pieces.map((piece) => piece.id));
      const due = lane.pieces.filter(
        ({ start, end }) => start !== null && end !== null && start < axis.until && end > axis.from,
      );
      expect([...drawn].sort()).toEqual(due.map((piece) => piece.id).sort());
    }
  });
});

describe('room for names', () => {
  const piece = (id: string, prep: string, start: number, end: number) => ({
    ...(VIEW.lanes.flatMap(({ pieces }) => pieces)[0] ?? expect.fail('nobody has work')),
    id,
    prep,
    start: START + start * MINUTE,
    end: START + end * MINUTE,
    elsewhere: null,
  });
  const [lane] = VIEW.lanes;
  if (!lane) throw new Error('nobody is there');
  const axis = { from: START, until: START + 100 * MINUTE };

  it('is up to the next block, and for one near the axis’ end before it too, shared with its neighbour', () => {
    const pieces = [piece('a', 'p1', 10, 30), piece('b', 'p2', 70, 75), piece('c', 'p3', 95, 100)];
    const rooms = groupsOf({ ...lane, pieces }, axis).map(({ nameFrom, room }) =>
      [nameFrom, room].map((time) => (time - START) / MINUTE),
    );
    expect(rooms).toEqual([
      [10, 70],
      [70, 85],
      [85, 100],
    ]);
  });
  it('begins where its block does when it is not near the end', () => {
    const [only] = groupsOf({ ...lane, pieces: [piece('a', 'p1', 40, 60)] }, axis);
    expect([only?.nameFrom, only?.room]).toEqual([START + 40 * MINUTE, axis.until]);
  });
});

describe('placeInQueue', () => {
  it('puts work before what is needed later, and after what is needed sooner', () => {
    for (const lane of VIEW.lanes) {
      for (const piece of VIEW.lanes.flatMap((other) => other.pieces)) {
        const before = placeInQueue(lane, [piece]);
        const index = lane.pieces.findIndex((one) => one.id === before);
        const ahead = (index < 0 ? lane.pieces : lane.pieces.slice(0, index)).filter(
          (one) => !one.underWay && one.id !== piece.id,
        );
        for (const one of ahead)
          expect(one.neededBy ?? Infinity).toBeLessThanOrEqual(piece.neededBy ?? Infinity);
        if (index >= 0) expect(lane.pieces[index]?.neededBy).toBeGreaterThan(piece.neededBy ?? Infinity);
      }
    }
  });
  it('never goes in front of what is under way', () => {
    const lane = VIEW.lanes.find(({ pieces }) => pieces.length >= 2);
    const [first, second] = lane?.pieces ?? [];
    if (!lane || !first || !second) throw new Error('somebody on the demo day has two pieces');
    const urgent = { ...second, id: 'gus.9:feet', neededBy: 0 };
    expect(placeInQueue(lane, [urgent])).toBe(first.id);
    const busy = { ...lane, pieces: [{ ...first, underWay: true }, second] };
    expect(placeInQueue(busy, [urgent])).toBe(second.id);
  });
  it('is the end for nobody', () => expect(placeInQueue(null, [])).toBeNull());
});

describe('compare', () => {
  it('says nothing when nothing changes', () => {
    const { spares, behind, lateBefore, lateAfter } = compare(FORECAST, FORECAST);
    expect(spares).toEqual([]);
    expect(behind).toEqual([]);
    expect(lateBefore).toBe(lateAfter);
  });

  it('lists just the preps whose spare differs by a minute or more, worst first', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -90, max: 90 }), { maxLength: 20 }), (shifts) => {
        const preps = Object.values(FORECAST.preps).map((prep, i) => {
          const shift = (shifts[i] ?? 0) * 20_000;
          return { ...prep, spareMs: prep.spareMs === null ? null : prep.spareMs + shift };
        });
        const after = { ...FORECAST, preps: Object.fromEntries(preps.map((prep) => [prep.prep, prep])) };
        const { spares } = compare(FORECAST, after);
        const expected = preps.filter((prep) => {
          const was = own(FORECAST.preps, prep.prep)?.spareMs;
          return (
            prep.spareMs !== null &&
            was !== null &&
            was !== undefined &&
            Math.abs(prep.spareMs - was) >= MINUTE
          );
        });
        expect(spares.map((one) => one.prep).sort()).toEqual(expected.map((one) => one.prep).sort());
        const spareOf = (one: (typeof spares)[number]): number => Number(one.after);
        for (const [i, one] of spares.entries()) {
          const next = spares[i + 1];
          if (next) expect(spareOf(one)).toBeLessThanOrEqual(spareOf(next));
        }
      }),
    );
  });

  it('counts a horse nobody can say anything about as late, and says when one is no longer needed', () => {
    const [first] = Object.values(FORECAST.preps);
    if (!first) throw new Error('the demo day has preps');
    const without = Object.fromEntries(Object.entries(FORECAST.preps).filter(([id]) => id !== first.prep));
    const gone = compare(FORECAST, { ...FORECAST, preps: without }).spares;
    expect(gone).toContainEqual({ prep: first.prep, before: first.spareMs, after: 'gone' });
    const only = { ...FORECAST, preps: { a: { ...first, prep: 'a', spareMs: null } }, hands: {} };
    expect(compare(only, only).lateAfter).toBe(1);
  });
});

describe('sayRecent', () => {
  it('names every kind of op that can be taken back', () => {
    const [prep] = Object.values(BOARD.day.preps);
    const [lesson] = Object.values(BOARD.day.lessons);
    const [volunteer] = Object.values(BOARD.barn.volunteers).filter((one) => one.clearances.includes('feet'));
    const [staff] = Object.values(BOARD.barn.staff);
    if (!prep || !lesson || !volunteer || !staff) throw new Error('the demo barn has all of these');
    const horse = BOARD.barn.horses[prep.horse]?.name ?? '';
    const said = (fact: Parameters<Sequence['accept']>[0]['fact'], by: string | null = null): string => {
      const hub = new Sequence({ board: BOARD, seq: 0, at: 0, seen: [] });
      hub.accept({ id: 'x', device: 'tablet', by, tappedAt: START, fact }, 'coordinator', START);
      const recent = hub.board.day.recent.at(-1);
      if (!recent) throw new Error(`${fact.kind} left no note`);
      return sayRecent(hub.board, recent);
    };
    expect(said({ kind: 'stagesFinished', prep: prep.id, stages: ['feet'] })).toBe(`Feet checked: ${horse}`);
    expect(said({ kind: 'stageStarted', prep: prep.id, stage: 'feet' }, volunteer.id)).toBe(
      `${volunteer.name} on feet of ${horse}`,
    );
    expect(said({ kind: 'horsePulled', horse: prep.horse, why: 'shoe', hold: 'today' }, staff.id)).toBe(
      `${horse} pulled`,
    );
    expect(said({ kind: 'volunteerArrived', volunteer: volunteer.id })).toBe(`${volunteer.name}: here`);
    expect(said({ kind: 'lessonMoved', lesson: lesson.id, start: lesson.start + MINUTE })).toBe(
      `Lesson changed: ${lesson.name}`,
    );
    expect(said({ kind: 'workMoved', pieces: [`${prep.id}:feet`], to: null, before: null })).toBe(
      `Work moved: Feet ${horse}`,
    );
  });

  it('leaves out a start that ended: nothing of it is left to take back', () => {
    const [prep] = Object.values(BOARD.day.preps);
    const [volunteer] = Object.values(BOARD.barn.volunteers).filter(({ clearances }) =>
      ['feet', 'coat'].every((asked) => clearances.some((one) => one === asked)),
    );
    if (!prep || !volunteer) throw new Error('the demo barn has both');
    const hub = new Sequence({ board: BOARD, seq: 0, at: 0, seen: [] });
    const accept = (id: string, fact: Parameters<Sequence['accept']>[0]['fact']): void => {
      hub.accept({ id, device: 'tablet', by: volunteer.id, tappedAt: START, fact }, 'aisle', START);
    };
    const shown = (): readonly string[] => toTakeBack(hub.board.day).map(({ op }) => op);
    // By who did the stage before: the work is theirs already, and starting moves none.
    accept('feetBegan', { kind: 'stageStarted', prep: prep.id, stage: 'feet' });
    accept('feetDone', { kind: 'stagesFinished', prep: prep.id, stages: ['feet'] });
    accept('began', { kind: 'stageStarted', prep: prep.id, stage: 'coat' });
    expect(shown()[0]).toBe('began');
    accept('done', { kind: 'stagesFinished', prep: prep.id, stages: ['coat'] });
    expect(shown()[0]).toBe('done');
    expect(shown()).not.toContain('began');
  });
});
