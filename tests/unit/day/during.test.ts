/** Roles, checks, riders up and down, lessons changed together, calls for a hand, and the work after lessons. */
import { describe, expect, test } from 'vitest';
import { DEFAULT_RULES } from '#core/barn/rules.ts';
import { afterPrep, openAfter, stillOut } from '#core/day/after.ts';
import { type Board, Board as BoardSchema } from '#core/day/board.ts';
import { decide } from '#core/day/decide.ts';
import { evolve } from '#core/day/evolve.ts';
import { whomToCall } from '#core/day/help.ts';
import type { OpFact, Reason } from '#core/day/ops.ts';
import { objectionHere } from '#core/day/mayDo.ts';
import { isRidden, markOf, outAt, rampTime } from '#core/day/preps.ts';
import { checkOf } from '#core/day/rides.ts';
import { redactEntry } from '#core/day/redact.ts';
import { tickedItems } from '#core/day/ticks.ts';
import { aisleTiles } from '#core/day/views/aisle.ts';
import { doorLessons } from '#core/day/views/door.ts';
import { helpLines } from '#core/day/views/help.ts';
import { openRoles, roleCandidates } from '#core/day/views/roles.ts';
import { planInput } from '#core/plan/input.ts';
import { MINUTE_MS } from '#core/time/units.ts';
import { entry, NOON, smallBoard } from '../../properties/day-arbitraries.ts';

const minute = (n: number): number => NOON + n * MINUTE_MS;

let seq = 1000;
/** As tapped by `by` at minute `at`; throws when the hub would refuse it. */
function after(board: Board, at: number, by: string | null, ...facts: OpFact[]): Board {
  return facts.reduce((next, fact) => {
    seq += 1;
    const op = { id: `x${seq}`, device: 'd1', by, tappedAt: minute(at), fact };
    const { why } = decide(next, op);
    if (why) throw new Error(why.code);
    return evolve(next, entry(seq, fact, { ...op, at: minute(at) }));
  }, board);
}

function refused(board: Board, at: number, by: string | null, fact: OpFact): Reason | null {
  return decide(board, { id: 'x', device: 'd1', by, tappedAt: minute(at), fact }).why;
}

const leader = (place: string, out: string | null, comes: string | null, lesson = 'L1'): OpFact => ({
  kind: 'rolesChanged',
  changes: [{ lesson, place, role: 'leader', out, in: comes }],
});

const lessonOf = (board: Board, id: string) => {
  const lesson = board.day.lessons[id];
  if (!lesson) throw new Error(id);
  return lesson;
};

describe('roles', () => {
  test('ask for their clearance, for an adult where the rules say so, and for one part at a time', () => {
    const board = smallBoard();
    expect(refused(board, 0, null, leader('p1', null, 'ben'))).toEqual({
      code: 'tooYoung',
      volunteer: 'ben',
    });
    const rules = { ...DEFAULT_RULES, minorsMayLead: true };
    const lenient = after(board, 0, null, { kind: 'rulesChanged', rules });
    expect(refused(lenient, 0, null, leader('p1', null, 'ben'))).toBeNull();
    const side: OpFact = {
      kind: 'rolesChanged',
      changes: [{ lesson: 'L1', place: 'p1', role: 'sideWalker', out: null, in: 'ben' }],
    };
    expect(refused(board, 0, null, side)).toMatchObject({ code: 'notClearedFor', clearance: 'side-walk' });
    const led = after(board, 0, null, leader('p1', null, 'ada'));
    expect(refused(led, 0, null, leader('p2', null, 'ada'))).toMatchObject({ code: 'roleTwice' });
  });

  test('nobody’s age reaches a wall', () => {
    const why = { code: 'tooYoung', volunteer: 'ben' } as const;
    const line = { ...entry(1, leader('p1', null, 'ben')), facts: [], why };
    expect(redactEntry(line, 'door').why?.code).toBe('notClearedFor');
    expect(redactEntry(line, 'coordinator').why).toEqual(why);
  });

  // High Hopes, Horse Handler Manual 2020: the leader never leaves the horse.
  test('a leader stays while riders are up, by taps or else by the lesson’s time; two may swap before', () => {
    const board = after(smallBoard(), 0, null, leader('p1', null, 'ada'), leader('p2', null, 'cho'));
    const swap: OpFact = {
      kind: 'rolesChanged',
      changes: [
        { lesson: 'L1', place: 'p1', role: 'leader', out: 'ada', in: 'cho' },
        { lesson: 'L1', place: 'p2', role: 'leader', out: 'cho', in: 'ada' },
      ],
    };
    const swapped = after(board, 50, null, swap);
    expect(lessonOf(swapped, 'L1').places.map((place) => place.leader)).toEqual(['cho', 'ada']);
    expect(refused(board, 61, null, swap)).toEqual({ code: 'ridersUp', lesson: 'L1' });
    const early = after(board, 57, 'ines', { kind: 'ridersUp', lesson: 'L1' });
    expect(refused(early, 58, null, swap)).toMatchObject({ code: 'ridersUp' });
    const down = after(early, 80, 'ines', { kind: 'ridersDown', lesson: 'L1' });
    expect(refused(down, 81, null, swap)).toBeNull();
    expect(isRidden(down.day, lessonOf(down, 'L1'), minute(81))).toBe(false);
  });

  test('keep people from other work from the ramp time until riders are down', () => {
    const board = after(smallBoard(), 0, null, leader('p1', null, 'ada'));
    const busy = (of: Board, now: number) =>
      planInput(of, minute(now)).workers.find(({ id }) => id === 'ada')?.busy;
    // Start at 60, warm-up 10 and mounting 5 before it.
    expect(busy(board, 0)).toEqual([{ from: minute(45), until: minute(90), horse: 'fern' }]);
    const down = after(board, 82, 'ines', { kind: 'ridersDown', lesson: 'L1' });
    expect(busy(down, 83)?.[0]?.until).toBe(minute(82));
  });

  test('of somebody who has left are open, and who could take them is proposed with why others cannot', () => {
    const board = after(smallBoard(), 0, null, leader('p1', null, 'ada'), {
      kind: 'volunteerArrived',
      volunteer: 'cho',
    });
    const gone = after(board, 1, null, { kind: 'volunteerLeft', volunteer: 'ada' });
    const [role] = openRoles(gone, minute(1)).filter(({ person }) => person === 'ada');
    expect(role).toMatchObject({ lesson: 'L1', place: 'p1', role: 'leader', isGone: true });
    const who = role ? roleCandidates(gone, role, minute(1)) : [];
    expect(who.map(({ id, why }) => [id, why?.code ?? null])).toEqual([
      ['cho', null],
      ['ben', 'tooYoung'],
    ]);
    expect(doorLessons(gone, null, minute(1), null)[0]?.horses[0]?.openRoles).toEqual(['leader']);
  });
});

describe('checks', () => {
  const tacked = after(smallBoard(), 30, 'ada', {
    kind: 'stagesFinished',
    prep: 'moss.1',
    stages: ['feet', 'coat', 'tack'],
  });
  const check = (what: 'girth' | 'instructor'): OpFact => ({
    kind: 'placesChecked',
    lesson: 'L1',
    places: ['p2'],
    check: what,
  });

  test('girth and stirrups by a second person, the instructor’s by the instructor, at the door', () => {
    expect(refused(tacked, 31, 'ada', check('girth'))).toEqual({ code: 'samePerson', horse: 'moss' });
    expect(refused(tacked, 31, 'cho', check('girth'))).toBeNull();
    expect(refused(tacked, 31, 'cho', check('instructor'))).toEqual({ code: 'needsInstructor' });
    const op = { id: 'x', device: 'd', by: 'ines', tappedAt: minute(31), fact: check('instructor') };
    expect(objectionHere('aisle', op, tacked.day)).toEqual({ code: 'notAllowedHere' });
    expect(objectionHere('door', op, tacked.day)).toBeNull();
  });

  test('hold for the horse and tack they were made on; a lesson later they are made again', () => {
    const checked = after(tacked, 31, 'cho', check('girth'));
    expect(checkOf(checked, 'L1', 'p2', 'girth')?.by).toBe('cho');
    // Moss goes again in the second lesson on the same tack: girth again, with ten minutes' rest and water.
    const again = aisleTiles(checked, null, minute(92), [], 'stall').find(({ horse }) => horse === 'moss');
    expect(again).toMatchObject({
      status: 'tacked',
      check: { lesson: 'L2', by: null },
      rest: { until: minute(100), water: true, shortMinutes: 0 },
    });
    const other = after(checked, 32, null, {
      kind: 'placeHorseChanged',
      lesson: 'L1',
      place: 'p2',
      horse: 'sorrel',
      tack: 't1',
    });
    expect(checkOf(other, 'L1', 'p2', 'girth')).toBeNull();
  });
});

describe('lessons changed together', () => {
  test('a delay moves ramp times and what hangs on them; one undo takes it back', () => {
    const board = smallBoard();
    const ramp = (of: Board, id: string): number | null => {
      const prep = of.day.preps[id];
      return prep ? rampTime(of.day, prep, of.barn.rules) : null;
    };
    const moved = after(board, 0, null, {
      kind: 'lessonsMoved',
      moves: ['L1', 'L2'].map((lesson) => ({
        lesson,
        start: lessonOf(board, lesson).start + 20 * MINUTE_MS,
        arena: null,
      })),
      why: 'weather',
    });
    expect(ramp(moved, 'fern.1')).toBe(minute(65));
    expect(ramp(moved, 'sorrel.1')).toBe(minute(110));
    expect(lessonOf(moved, 'L1')).toMatchObject({ plannedStart: minute(60), changedFor: 'weather' });
    const op = moved.day.recent.at(-1)?.op ?? '';
    expect(after(moved, 1, null, { kind: 'undone', op }).day.lessons).toEqual(board.day.lessons);
  });

  test('two lessons swap; those with riders up stay', () => {
    const board = smallBoard();
    const [first, second] = [lessonOf(board, 'L1'), lessonOf(board, 'L2')];
    const swap: OpFact = {
      kind: 'lessonsMoved',
      moves: [
        { lesson: 'L1', start: second.start, arena: second.arena },
        { lesson: 'L2', start: first.start, arena: first.arena },
      ],
      why: 'people',
    };
    const swapped = after(board, 0, null, swap);
    expect([lessonOf(swapped, 'L1').start, lessonOf(swapped, 'L2').start]).toEqual([minute(105), minute(60)]);
    const up = after(board, 58, 'ines', { kind: 'ridersUp', lesson: 'L1' });
    expect(refused(up, 59, null, swap)).toEqual({ code: 'ridersUp', lesson: 'L1' });
    const off: OpFact = { kind: 'lessonsCancelled', lessons: ['L1', 'L2'], why: 'weather' };
    expect(refused(up, 59, null, off)).toMatchObject({ code: 'ridersUp' });
    // A lesson that runs over ends when riders are down, or a quarter of an hour late when nobody says so.
    expect(outAt(up.day, first, minute(95))).toBe(minute(96));
    expect(outAt(up.day, first, minute(200))).toBe(minute(105));
  });
});

describe('a hand', () => {
  test('is asked for, proposed to whoever is free and near, answered and ended by name', () => {
    const here = after(smallBoard(), 0, null, { kind: 'volunteerArrived', volunteer: 'cho' });
    const busy = after(here, 1, 'ada', { kind: 'stageStarted', prep: 'fern.1', stage: 'feet' });
    const to = whomToCall(busy, 'fern', minute(2));
    expect(to).toBe('ines');
    const asked = after(busy, 2, 'ada', { kind: 'helpAsked', horse: 'fern', call: 'unsure', to });
    const [call] = helpLines(asked, minute(2));
    expect(call).toMatchObject({ name: 'fern', to: 'Ines', by: 'ada' });
    // Ben is here and cleared for feet too, Ada is on the horse herself.
    expect(call?.helpers.map(({ id }) => id)).toEqual(['ben', 'cho']);
    const answer: OpFact = { kind: 'helpAnswered', help: call?.id ?? '' };
    expect(refused(asked, 3, null, answer)).toEqual({ code: 'needsName' });
    const coming = after(asked, 3, 'ines', answer);
    expect(helpLines(coming, minute(3))[0]?.coming).toEqual(['Ines']);
    const ended = after(coming, 9, 'ada', { kind: 'helpEnded', help: call?.id ?? '' });
    expect(helpLines(ended, minute(9))).toEqual([]);
  });
});

describe('after the lessons', () => {
  const AWAY = ['untack', 'cool', 'look', 'away'] as const;
  const tacked = after(smallBoard(), 30, 'ada', {
    kind: 'stagesFinished',
    prep: 'fern.1',
    stages: ['feet', 'coat', 'tack'],
  });

  test('a horse is turned around between two lessons, and put away after the last', () => {
    expect(afterPrep(tacked, 'fern', minute(70))).toBeNull();
    expect(afterPrep(tacked, 'fern', minute(92))).toBeNull();
    const retacked = after(tacked, 95, 'ada', { kind: 'stagesFinished', prep: 'fern.2', stages: ['tack'] });
    const prep = afterPrep(retacked, 'fern', minute(136));
    expect(prep?.id).toBe('fern.2');
    expect(prep && openAfter(prep, retacked.barn.rules)).toEqual([...AWAY]);
  });

  test('what was taken out is out until it is put away', () => {
    const things = (board: Board) => stillOut(board).map(({ what, item }) => item ?? what);
    expect(things(tacked)).toEqual(['box', 'halter', 'Pad', 'Saddle', 'Girth', 'Bridle']);
    const off = after(tacked, 140, 'ada', { kind: 'stagesFinished', prep: 'fern.1', stages: ['untack'] });
    expect(things(off)).toEqual(['box', 'Pad', 'Saddle', 'Girth', 'Bridle']);
    const away = after(off, 150, 'ada', {
      kind: 'stagesFinished',
      prep: 'fern.1',
      stages: ['cool', 'look', 'away'],
    });
    expect(things(away)).toEqual([]);
  });

  test('a pulled horse is untacked too, and is tacked anew when it is released for its lesson', () => {
    const pulled = after(tacked, 40, 'ines', {
      kind: 'horsePulled',
      horse: 'fern',
      why: 'sore',
      hold: 'today',
    });
    expect(afterPrep(pulled, 'fern', minute(41))?.id).toBe('fern.1');
    const off = after(pulled, 42, 'ada', { kind: 'stagesFinished', prep: 'fern.1', stages: ['untack'] });
    const back = after(off, 45, 'ines', { kind: 'horseReleased', horse: 'fern', word: '' });
    const prep = back.day.preps['fern.1'];
    expect(prep && markOf(prep, 'tack')).toBeUndefined();
    expect(prep && markOf(prep, 'coat')).toBeDefined();
    const again = after(back, 50, 'ada', { kind: 'stagesFinished', prep: 'fern.1', stages: ['tack'] });
    const tackedAgain = again.day.preps['fern.1'];
    expect(tackedAgain && markOf(tackedAgain, 'tack')?.at).toBe(minute(50));
    expect(tackedAgain && markOf(tackedAgain, 'untack')).toBeUndefined();
  });

  test('tack is ticked off its list, the last tap for an item counting', () => {
    const tick = (items: string[], on: boolean): OpFact => ({
      kind: 'itemsTicked',
      prep: 'fern.1',
      tack: 't1',
      items,
      on,
    });
    const board = after(smallBoard(), 20, 'ada', tick(['Pad', 'Saddle'], true), tick(['Pad'], false));
    const prep = board.day.preps['fern.1'];
    expect(prep && [...tickedItems(prep, 't1')]).toEqual(['Saddle']);
  });
});

test('a board kept before there were any of these still reads', () => {
  const old = JSON.parse(JSON.stringify(smallBoard())) as {
    barn: { rules: Record<string, unknown> };
    day: {
      preps: Record<string, { marks: Record<string, unknown>; ticks?: unknown }>;
      rides?: unknown;
      help?: unknown;
    };
  };
  delete old.day.rides;
  delete old.day.help;
  for (const prep of Object.values(old.day.preps)) {
    delete prep.ticks;
    for (const stage of ['untack', 'cool', 'look', 'away']) delete prep.marks[stage];
  }
  for (const rule of ['leadMinutes', 'secondCheck', 'afterStages', 'afterMinutes'])
    delete old.barn.rules[rule];
  expect(BoardSchema.parse(old)).toEqual(smallBoard());
});
