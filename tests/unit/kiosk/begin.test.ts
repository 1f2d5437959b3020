/** The short form that begins a barn, against the domain's own decide: every fact must be taken. */
import { describe, expect, it } from 'vitest';
import { emptyBoard } from '#core/day/emptyBoard.ts';
import { OpFact } from '#core/day/ops.ts';
import { rampTime } from '#core/day/preps.ts';
import { Sequence } from '#core/day/sequence.ts';
import { factsFor, missing, workFor, type AddForm } from '../../../kiosk/src/lib/parts/begin/records.ts';

const EMPTY: AddForm = {
  horse: '',
  horseName: '',
  shoes: 'none',
  stall: '',
  person: '',
  personName: '',
  clearances: ['feet', 'coat', 'tack'],
  withLesson: true,
  lessonName: '',
  time: '14:00',
  minutes: 30,
  riderName: '',
  staffName: '',
};
const FIRST: AddForm = {
  ...EMPTY,
  horseName: ' Biscuit ',
  stall: '4',
  shoes: 'front',
  personName: 'Ruth',
  lessonName: 'First ride',
  riderName: 'Kit',
  staffName: 'Ola',
};
const AT = Date.UTC(2026, 4, 12, 12);

function counter(): () => string {
  let n = 0;
  return () => `id${(n += 1)}`;
}

function hubFor(board = emptyBoard('Willow Ford', 'America/Denver')): Sequence {
  return new Sequence({ board, seq: 0, at: AT, seen: [] });
}

/** All facts through the hub's sequence; none may be declined. */
function take(hub: Sequence, facts: readonly OpFact[]): void {
  for (const fact of facts) {
    expect(OpFact.safeParse(fact).success).toBe(true);
    const op = { id: `op${hub.seq + 1}`, device: 'tablet', by: null, tappedAt: AT, fact };
    expect(hub.accept(op, 'coordinator', AT).outcome.why).toBeNull();
  }
}

describe('factsFor', () => {
  it('puts one horse, one person and one lesson on an empty barn’s board, and the work in their hands', () => {
    const hub = hubFor();
    const facts = factsFor(FIRST, hub.board, '2026-05-12', counter());
    take(hub, facts);
    const lesson = Object.values(hub.board.day.lessons)[0];
    const person = Object.values(hub.board.barn.volunteers)[0];
    const prep = Object.values(hub.board.day.preps)[0];
    if (!lesson || !person || !prep) throw new Error('nothing came of it');
    // 14:00 in Denver on this date is 20:00 UTC (UTC−6, IANA tz database).
    expect(lesson.start).toBe(Date.UTC(2026, 4, 12, 20));
    expect(rampTime(hub.board.day, prep, hub.board.barn.rules)).toBeLessThan(lesson.start);
    expect(hub.board.barn.horses[prep.horse]?.name).toBe('Biscuit');
    expect(hub.board.barn.horses[prep.horse]?.feet).toEqual({
      LF: 'shod',
      RF: 'shod',
      LH: 'barefoot',
      RH: 'barefoot',
    });
    const work = workFor(hub.board, lesson.id, person.id);
    if (!work) throw new Error('no work for the person');
    take(hub, [work]);
    expect(hub.board.day.hands[person.id]?.queue).toEqual([
      `${prep.id}:feet`,
      `${prep.id}:coat`,
      `${prep.id}:tack`,
    ]);
  });

  it('adds to a barn that has a day: an old stall is used again, an old horse is not saved anew', () => {
    const hub = hubFor();
    const newId = counter();
    take(hub, factsFor(FIRST, hub.board, '2026-05-12', newId));
    const horse = Object.keys(hub.board.barn.horses)[0] ?? '';
    take(hub, factsFor({ ...FIRST, horse, time: '16:00', staffName: '' }, hub.board, '2026-05-12', newId));
    take(hub, factsFor({ ...FIRST, horseName: 'Plum', withLesson: false }, hub.board, '2026-05-12', newId));
    expect(Object.keys(hub.board.barn.horses)).toHaveLength(2);
    expect(Object.keys(hub.board.barn.stalls)).toHaveLength(1);
    expect(Object.keys(hub.board.day.lessons)).toHaveLength(2);
  });

  it('gives nobody work they are not cleared for', () => {
    const hub = hubFor();
    take(hub, factsFor({ ...FIRST, clearances: ['coat'] }, hub.board, '2026-05-12', counter()));
    const lesson = Object.keys(hub.board.day.lessons)[0] ?? '';
    const person = Object.keys(hub.board.barn.volunteers)[0] ?? '';
    expect(workFor(hub.board, lesson, person)).toMatchObject({ pieces: [expect.stringMatching(/:coat$/)] });
  });
});

describe('missing', () => {
  it('asks for what a lesson needs, and for nothing once it is there', () => {
    expect(missing(EMPTY)).toEqual(['horseName', 'personName', 'lessonName']);
    expect(missing(FIRST)).toEqual([]);
    expect(missing({ ...FIRST, time: '24:00' })).toEqual(['time']);
    expect(missing({ ...FIRST, stall: ' ' })).toEqual(['stall']);
    expect(missing({ ...FIRST, clearances: [] })).toEqual(['clearances']);
  });
  it('takes a person or a horse alone when there is no lesson', () => {
    expect(missing({ ...EMPTY, withLesson: false, personName: 'Ruth' })).toEqual([]);
    expect(missing({ ...EMPTY, withLesson: false, horseName: 'Plum', stall: '2' })).toEqual([]);
    expect(missing({ ...EMPTY, withLesson: false })).toEqual(['horseName']);
  });
});
