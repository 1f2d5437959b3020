/** What the hub makes of an op, case by case; the table in `src/day/late.ts` says the same in words. */
import { describe, expect, test } from 'vitest';
import { Sequence } from '#core/day/sequence.ts';
import type { Op, OpFact } from '#core/day/ops.ts';
import type { Role } from '#core/day/places.ts';
import { NOON, smallBoard } from '../../properties/day-arbitraries.ts';

let n = 0;
const op = (fact: OpFact, more: Partial<Op> = {}): Op => {
  n += 1;
  return { id: `op${n}`, device: 'd1', by: 'ada', tappedAt: NOON + n, fact, ...more };
};

function hub(): { say: (fact: OpFact, more?: Partial<Op>, role?: Role) => unknown; sequence: Sequence } {
  const sequence = new Sequence({ board: smallBoard(), seq: 0, at: 0, seen: [] });
  return {
    sequence,
    say: (fact, more = {}, role = 'coordinator') =>
      sequence.accept(op(fact, more), role, NOON + 3_600_000).outcome.why,
  };
}

const pull: OpFact = { kind: 'horsePulled', horse: 'fern', why: 'shoe lost', hold: 'farrier' };

describe('a stage tap', () => {
  test('on a pulled horse is kept as a note and answered with why', () => {
    const { say, sequence } = hub();
    expect(say(pull)).toBeNull();
    expect(say({ kind: 'stagesFinished', prep: 'fern.1', stages: ['coat'] })).toEqual({
      code: 'horsePulled',
      horse: 'fern',
    });
    expect(sequence.board.day.notes).toMatchObject([{ prep: 'fern.1', stages: ['coat'], by: 'ada' }]);
    expect(sequence.board.day.preps['fern.1']?.marks.coat).toEqual([]);
  });

  test('that comes late: the earliest tap gives the name and the time', () => {
    const { say, sequence } = hub();
    say(
      { kind: 'stagesFinished', prep: 'fern.1', stages: ['feet', 'coat'] },
      { by: 'ben', tappedAt: NOON + 900 },
    );
    say({ kind: 'stagesFinished', prep: 'fern.1', stages: ['feet'] }, { by: 'ada', tappedAt: NOON + 100 });
    expect(sequence.board.day.preps['fern.1']?.marks.feet[0]).toMatchObject({ by: 'ada', at: NOON + 100 });
    expect(sequence.board.day.preps['fern.1']?.marks.coat[0]).toMatchObject({ by: 'ben' });
  });

  test('from a tablet whose clock runs ahead is not believed to lie in the future', () => {
    const { say, sequence } = hub();
    say({ kind: 'stagesFinished', prep: 'fern.1', stages: ['feet'] }, { tappedAt: NOON + 99 * 3_600_000 });
    expect(sequence.board.day.preps['fern.1']?.marks.feet[0]?.at).toBe(NOON + 3_600_000);
  });
});

describe('a start', () => {
  test('needs a name and a clearance', () => {
    const { say } = hub();
    expect(say({ kind: 'stageStarted', prep: 'fern.1', stage: 'feet' }, { by: null })).toEqual({
      code: 'needsName',
    });
    expect(say({ kind: 'stageStarted', prep: 'moss.1', stage: 'tack' }, { by: 'ben' })).toEqual({
      code: 'notCleared',
      volunteer: 'ben',
      stage: 'tack',
      horse: 'moss',
    });
    expect(say({ kind: 'stageStarted', prep: 'sorrel.1', stage: 'feet' }, { by: 'ben' })).toMatchObject({
      code: 'notCleared',
    });
  });

  test('of a prep given to nobody takes the whole horse; one person is on one horse', () => {
    const { say, sequence } = hub();
    say({ kind: 'stageStarted', prep: 'sorrel.1', stage: 'feet' });
    expect(sequence.board.day.hands['ada']?.queue.slice(0, 3)).toEqual([
      'sorrel.1:feet',
      'sorrel.1:coat',
      'sorrel.1:tack',
    ]);
    say({ kind: 'stageStarted', prep: 'fern.1', stage: 'feet' });
    expect(sequence.board.day.preps['sorrel.1']?.onIt).toBeNull();
    expect(sequence.board.day.preps['fern.1']?.onIt?.by).toBe('ada');
  });
});

describe('release', () => {
  test('is named and, after a vet or farrier hold, carries their word', () => {
    const { say, sequence } = hub();
    say(pull);
    expect(say({ kind: 'horseReleased', horse: 'fern', word: '' })).toEqual({
      code: 'needsWord',
      horse: 'fern',
    });
    expect(say({ kind: 'horseReleased', horse: 'fern', word: 'reset' }, { by: null })).toEqual({
      code: 'needsName',
    });
    expect(say({ kind: 'horseReleased', horse: 'fern', word: 'shoe reset' })).toBeNull();
    expect(sequence.board.barn.horses['fern']?.holds).toEqual([]);
    expect(say({ kind: 'horseReleased', horse: 'fern', word: 'again' })).toEqual({
      code: 'notPulled',
      horse: 'fern',
    });
  });
});

describe('undo', () => {
  test('only from the tablet it was tapped on, or the coordinator', () => {
    const { say, sequence } = hub();
    say({ kind: 'stagesFinished', prep: 'fern.1', stages: ['feet'] }, { id: 'tap', device: 'd1' }, 'aisle');
    expect(say({ kind: 'undone', op: 'tap' }, { device: 'd2' }, 'aisle')).toEqual({ code: 'notYours' });
    expect(say({ kind: 'undone', op: 'tap' }, { device: 'd1' }, 'aisle')).toBeNull();
    expect(sequence.board.day.preps['fern.1']?.marks.feet).toEqual([]);
    expect(say({ kind: 'undone', op: 'tap' })).toEqual({ code: 'nothingToUndo' });
  });

  test('not over a later change of the same thing', () => {
    const { say } = hub();
    const move = (to: string): OpFact => ({ kind: 'workMoved', pieces: ['fern.1:feet'], to, before: null });
    say(move('cho'), { id: 'first' });
    say(move('ben'), { id: 'second' });
    expect(say({ kind: 'undone', op: 'first' })).toEqual({ code: 'changedSince' });
    expect(say({ kind: 'undone', op: 'second' })).toBeNull();
    expect(say({ kind: 'undone', op: 'first' })).toBeNull();
  });
});

describe('a tablet’s place', () => {
  test.each<[Role, OpFact, boolean]>([
    ['aisle', { kind: 'stagesFinished', prep: 'fern.1', stages: ['feet'] }, true],
    ['aisle', pull, false],
    ['aisle', { kind: 'workMoved', pieces: ['fern.1:feet'], to: 'ben', before: null }, false],
    ['aisle', { kind: 'lessonCancelled', lesson: 'L1' }, false],
    ['aisle', { kind: 'recordRetired', table: 'horses', id: 'fern' }, false],
    ['door', pull, true],
    ['door', { kind: 'stagesFinished', prep: 'fern.1', stages: ['feet'] }, false],
  ])('%s %o: %s', (role, fact, allowed) => {
    const why = hub().say(fact, {}, role);
    expect(why).toEqual(allowed ? null : { code: 'notAllowedHere' });
  });
});

test('work goes to nobody who is not cleared for it', () => {
  const { say } = hub();
  expect(say({ kind: 'workMoved', pieces: ['moss.1:tack'], to: 'ben', before: null })).toMatchObject({
    code: 'notCleared',
  });
});
