/**
 * A day's account against figures worked out by hand from the taps in `handDay.ts`. No outside source: the arithmetic is
 * written out beside each figure. Ramp times: lesson start less 10 min warm-up and 5 min mounting (barn rules).
 */
import { describe, expect, test } from 'vitest';
import { decide } from '#core/day/decide.ts';
import type { Correction, Op } from '#core/day/ops.ts';
import { Sequence } from '#core/day/sequence.ts';
import type { Account } from '#core/ledger/account.ts';
import { accountOfDay } from '#core/ledger/day.ts';
import { onTime } from '#core/ledger/lessons.ts';
import { correctionsIn } from '#core/ledger/record.ts';
import { stagesBy } from '#core/ledger/stages.ts';
import { MINUTE_MS } from '#core/time/units.ts';
import { at, DATE, HAND_CORRECTIONS, HAND_OPS, handBoard, handRecord, played } from './handDay.ts';

const min = (minutes: number): number => minutes * MINUTE_MS;
const { barn } = handBoard();

function account(ops = HAND_OPS, workedBefore: (horse: string) => boolean[] = () => []): Account {
  const record = handRecord(ops);
  return accountOfDay(record, { barn, corrections: correctionsIn(record.entries), workedBefore });
}

describe('horses', () => {
  test('minutes in lessons and waiting in the arena', () => {
    const got = account().horses.map(({ horse, lessons, lessonMs, waitingMs }) => ({
      horse,
      lessons,
      lessonMs,
      waitingMs,
    }));
    expect(got).toEqual([
      // 14:00–14:30 and 14:45–15:15: 30 + 30; it waits 14:30–14:45 in the same arena.
      { horse: 'fern', lessons: 2, lessonMs: min(30 + 30), waitingMs: min(45 - 30) },
      { horse: 'moss', lessons: 2, lessonMs: min(30 + 30), waitingMs: min(45 - 30) },
      // Only 14:45–15:15; pulled 14:10, but released 14:18, before it began.
      { horse: 'sorrel', lessons: 1, lessonMs: min(30), waitingMs: 0 },
    ]);
  });

  test('limits of the week: a seventh day is one over the barn’s six', () => {
    const six = [true, true, true, true, true, true, false];
    const fern = account(HAND_OPS, (horse) => (horse === 'fern' ? six : [])).horses[0];
    expect(fern?.days).toEqual([{ date: DATE, ms: min(60 + 15), daysInWeek: 6 + 1 }]);
    expect(fern?.over).toEqual([
      { date: DATE, code: 'days-in-a-row', figure: 7, limit: 6 },
      { date: DATE, code: 'days-per-week', figure: 7, limit: 6 },
    ]);
  });
});

describe('lessons on time', () => {
  test('each horse against its ramp time', () => {
    const [first, second] = account().lessons;
    expect(first?.horses).toEqual([
      { place: 'p1', horse: 'fern', ramp: at('13:45'), readyAt: at('13:31'), unknown: null },
      { place: 'p2', horse: 'moss', ramp: at('13:45'), readyAt: at('13:49'), unknown: null },
    ]);
    // Fern only changes tack and is warm: 14:45 − 5. Moss goes straight on: the same. Sorrel is prepared whole: 14:45 − 15.
    expect(second?.horses).toEqual([
      { place: 'p1', horse: 'fern', ramp: at('14:40'), readyAt: at('14:36'), unknown: null },
      { place: 'p2', horse: 'moss', ramp: at('14:40'), readyAt: at('13:49'), unknown: null },
      { place: 'p3', horse: 'sorrel', ramp: at('14:30'), readyAt: null, unknown: 'notTapped' },
    ]);
  });

  test('a lesson is as late as its last horse, and unknown is said as unknown', () => {
    // Moss 13:49 against 13:45.
    expect(account().lessons.map(onTime)).toEqual([
      { kind: 'late', lateMs: min(49 - 45) },
      { kind: 'unknown', horses: 1 },
    ]);
  });
});

describe('volunteers', () => {
  test('from coming to going; nobody ended Ada’s stay, so it is counted to the day’s close', () => {
    const people = Object.fromEntries(account().people.map(({ person, ...rest }) => [person, rest]));
    // The day closes when the last lesson ends: 14:45 + 30 = 15:15.
    expect(people['ada']).toEqual({
      ms: min(2 * 60 + 15),
      stays: 1,
      openStays: 1,
      leadingMs: 0,
      sideWalkingMs: 0,
      // Fern's three, the tack of Moss, and Fern's other tack.
      stages: 3 + 1 + 1,
    });
    // 13:02–14:35. Walks beside Fern in the first lesson. Feet and coat of Moss.
    expect(people['ben']).toEqual({
      ms: min(60 + 33),
      stays: 1,
      openStays: 0,
      leadingMs: 0,
      sideWalkingMs: min(30),
      stages: 2,
    });
    // Her first tap at 14:00 says that she is here; she went at 15:20. She leads Fern in the second lesson.
    expect(people['cho']).toMatchObject({ ms: min(60 + 20), leadingMs: min(30), stages: 1 });
  });

  test('corrections count, and what was tapped stays beside them', () => {
    const corrected = account([...HAND_OPS, ...HAND_CORRECTIONS]);
    const hours = Object.fromEntries(corrected.people.map(({ person, ms }) => [person, ms]));
    // 13:00–15:40, 13:02–14:35, 13:50–15:20.
    expect(hours).toEqual({ ada: min(160), ben: min(93), cho: min(90) });
    expect(corrected.stays.find(({ volunteer }) => volunteer === 'ada')).toMatchObject({
      from: at('13:00'),
      until: at('15:40'),
      tapped: { from: at('13:00'), until: null },
      correction: { id: 'right0', by: 'ines', at: at('16:00'), why: 'forgot to tap when leaving' },
    });
    expect(corrected.corrections.map(({ id }) => id)).toEqual(['right0', 'right1']);
  });

  test('a stay nobody tapped can be added, put right again, and struck out', () => {
    const [first] = HAND_CORRECTIONS;
    if (first?.fact.kind !== 'ledgerCorrected') throw new Error('not a correction');
    const { fact } = first;
    const stay = (id: string, of: string | null, from: string, until: string) => ({
      ...first,
      id,
      fact: {
        ...fact,
        correction: { about: 'stay' as const, volunteer: 'ben', of, from: at(from), until: at(until) },
      },
    });
    const added = stay('more0', null, '16:00', '17:00');
    const hours = (...more: (typeof added)[]): number | undefined =>
      account([...HAND_OPS, ...more]).people.find(({ person }) => person === 'ben')?.ms;
    expect(hours(added)).toBe(min(93 + 60));
    expect(hours(added, stay('more1', 'more0', '16:00', '16:20'))).toBe(min(93 + 20));
    expect(hours(added, stay('more1', 'more0', '16:00', '16:00'))).toBe(min(93));
  });
});

describe('stages', () => {
  test('measured from tap to tap; what was not is counted by why', () => {
    const { stages, notMeasured } = account();
    const by = (what: 'stage' | 'horse' | 'person') =>
      Object.fromEntries(stagesBy(stages, what).map(({ key, count, totalMs }) => [key, [count, totalMs]]));
    expect(by('stage')).toEqual({
      // Ada on Fern 13:05–13:10, Ben on Moss 13:05–13:09, Cho on Sorrel 14:00–14:06.
      feet: [3, min(5 + 4 + 6)],
      // Ada went straight on, 13:10–13:22; Ben 13:10–13:40.
      coat: [2, min(12 + 30)],
      // Ada: Fern 13:23–13:31, Moss 13:41–13:49, Fern's other tack 14:31–14:36.
      tack: [3, min(8 + 8 + 5)],
    });
    expect(by('horse')).toEqual({
      fern: [4, min(5 + 12 + 8 + 5)],
      moss: [3, min(4 + 30 + 8)],
      sorrel: [1, min(6)],
    });
    expect(by('person')).toEqual({
      ada: [5, min(5 + 12 + 8 + 8 + 5)],
      ben: [2, min(4 + 30)],
      cho: [1, min(6)],
    });
    // Sorrel's coat, finished by nobody named.
    expect(notMeasured).toEqual([{ because: 'nobody-named', count: 1 }]);
  });

  test('spare: what was left to the needed-by time, by the barn’s own 11 and 8 minutes for coat and tack', () => {
    const got = account().spare.map(({ at: when, horse, stage, spareMs }) => [when, horse, stage, spareMs]);
    expect(got).toEqual([
      // Needed by 13:45 − 11 − 8 = 13:26 (feet), 13:37 (coat), 13:45 (tack).
      [at('13:09'), 'moss', 'feet', min(26 - 9)],
      [at('13:10'), 'fern', 'feet', min(26 - 10)],
      [at('13:22'), 'fern', 'coat', min(37 - 22)],
      [at('13:31'), 'fern', 'tack', min(45 - 31)],
      [at('13:40'), 'moss', 'coat', min(37 - 40)],
      [at('13:49'), 'moss', 'tack', min(45 - 49)],
      // Sorrel: 14:30 − 19 = 14:11 (feet), 14:22 (coat). Fern's other tack: 14:40.
      [at('14:06'), 'sorrel', 'feet', min(11 - 6)],
      [at('14:29'), 'sorrel', 'coat', min(22 - 29)],
      [at('14:36'), 'fern', 'tack', min(40 - 36)],
    ]);
  });
});

test('findings, holds and changes, by whom', () => {
  const { findings, holds, changes } = account();
  expect(findings).toMatchObject([{ at: at('13:08'), horse: 'moss', by: 'ben', readBy: ['ines'] }]);
  expect(holds).toEqual([
    {
      date: DATE,
      horse: 'sorrel',
      pulled: { at: at('14:10'), by: 'ines', hold: 'today', why: 'looked stiff' },
      released: { at: at('14:18'), by: 'ines', word: 'sound at trot' },
    },
  ]);
  expect(changes.map(({ at: when, by, kind, takenBack }) => [when, by, kind, takenBack])).toEqual([
    [at('13:01'), 'ines', 'workMoved', false],
    [at('13:55'), 'ines', 'placeCancelled', true],
    [at('13:56'), 'ines', 'undone', false],
    [at('14:10'), 'ines', 'horsePulled', false],
    [at('14:18'), 'ines', 'horseReleased', false],
  ]);
});

describe('ticked on paper', () => {
  const tack = { prep: 'sorrel.1', stage: 'tack' as const, by: 'cho' };
  const written = (time: string | null) => ({
    id: 'paper0',
    device: 'd1',
    by: 'ines',
    tappedAt: at('16:00'),
    fact: {
      kind: 'stagesWrittenDown' as const,
      date: DATE,
      done: [{ ...tack, at: time === null ? null : at(time) }],
    },
  });

  test('a stage counts at its written time, however much later it is typed in', () => {
    const second = account([...HAND_OPS, written('14:28')]).lessons[1];
    // Sorrel's last stage was its coat, 14:29; its ramp time is 14:30.
    expect(second?.horses[2]).toMatchObject({ readyAt: at('14:29'), unknown: null });
    expect(second && onTime(second)).toEqual({ kind: 'onTime' });
    const late = account([...HAND_OPS, written('14:33')]).lessons[1];
    expect(late && onTime(late)).toEqual({ kind: 'late', lateMs: min(33 - 30) });
  });

  test('without a time it was done, but nobody knows when', () => {
    const got = account([...HAND_OPS, written(null)]);
    expect(got.lessons[1]?.horses[2]).toMatchObject({ readyAt: null, unknown: 'noTime' });
    expect(got.people.find(({ person }) => person === 'cho')?.stages).toBe(2);
  });

  test('typed in on a later day, as a correction, it comes to the same', () => {
    const record = handRecord();
    const today = accountOfDay(handRecord([...HAND_OPS, written('14:33')]), {
      barn,
      corrections: [],
      workedBefore: () => [],
    });
    const later = accountOfDay(record, {
      barn,
      corrections: [
        {
          id: 'paper0',
          by: 'ines',
          at: at('16:00'),
          why: 'the sheet lay in the office',
          date: DATE,
          correction: { about: 'stages', done: [{ ...tack, at: at('14:33') }] },
          was: null,
        },
      ],
      workedBefore: () => [],
    });
    expect({ ...later, corrections: [] }).toEqual(today);
  });

  test('of a pulled horse it is kept as a note, and one undo takes back all of it', () => {
    const pulled: Op = {
      id: 'pull0',
      device: 'd1',
      by: 'ines',
      tappedAt: at('15:50'),
      fact: { kind: 'horsePulled', horse: 'moss', hold: 'today', why: 'stiff' },
    };
    const paper = written('14:28');
    const done = [...paper.fact.done, { prep: 'moss.1', stage: 'coat' as const, at: null, by: null }];
    const { board } = played([...HAND_OPS, pulled]);
    const sequence = new Sequence({ board, seq: 100, at: 0, seen: [] });
    const fact = { ...paper.fact, done };
    const { outcome } = sequence.accept({ ...paper, fact }, 'coordinator', at('16:00'));
    expect(outcome.why).toEqual({ code: 'horsePulled', horse: 'moss' });
    expect(sequence.board.day.preps['sorrel.1']?.marks.tack[0]?.at).toBe(at('14:28'));
    expect(sequence.board.day.notes).toMatchObject([{ op: 'paper0', prep: 'moss.1', stages: ['coat'] }]);
    sequence.accept(
      { ...pulled, id: 'back0', tappedAt: at('16:01'), fact: { kind: 'undone', op: 'paper0' } },
      'coordinator',
      at('16:01'),
    );
    expect(sequence.board.day.preps).toEqual(board.day.preps);
    expect(sequence.board.day.notes).toEqual([]);
  });

  test('it teaches nothing about how long a stage takes', () => {
    expect(account([...HAND_OPS, written('14:28')]).stages).toEqual(account().stages);
  });
});

describe('what was wrong is put right beside what was recorded', () => {
  const right = (id: string, correction: Correction): Op => ({
    id,
    device: 'd1',
    by: 'ines',
    tappedAt: at('16:30'),
    fact: { kind: 'ledgerCorrected', date: DATE, correction, why: 'seen by Ines' },
  });
  const tackAt = (time: string | null): Op =>
    right('stage0', {
      about: 'stage',
      prep: 'fern.1',
      stage: 'tack',
      at: time === null ? null : at(time),
      by: 'cho',
    });

  test('a stage’s time and who did it: the horse was ready then, and it counts for that person', () => {
    const got = account([...HAND_OPS, tackAt('13:52')]);
    expect(got.lessons[0]?.horses[0]).toMatchObject({
      horse: 'fern',
      ramp: at('13:45'),
      readyAt: at('13:52'),
    });
    const stagesOf = (of: Account, person: string) => of.people.find((one) => one.person === person)?.stages;
    expect(stagesOf(got, 'cho')).toBe((stagesOf(account(), 'cho') ?? 0) + 1);
    expect(got.corrections.map(({ was }) => was).at(-1)).toEqual({
      from: at('13:31'),
      until: null,
      by: 'ada',
    });
    expect(got.preps[0]?.stages.find(({ stage }) => stage === 'tack')).toEqual({
      stage: 'tack',
      done: true,
      at: at('13:52'),
      by: 'cho',
    });
  });

  test('a stage that was not done is not; the last correction counts', () => {
    expect(account([...HAND_OPS, tackAt(null)]).lessons[0]?.horses[0]).toMatchObject({
      unknown: 'notTapped',
    });
    const again = { ...tackAt('13:40'), id: 'stage1' };
    expect(account([...HAND_OPS, tackAt(null), again]).lessons[0]?.horses[0]).toMatchObject({
      readyAt: at('13:40'),
    });
  });

  // 14:05–14:45 in place of 14:00–14:30: 40 + 30 min, and no wait before 14:45. Ramp time 15 min before 14:05.
  test('a lesson’s start and end: ride times, ramp times and who led follow', () => {
    const got = account([
      ...HAND_OPS,
      right('lesson0', { about: 'lesson', lesson: 'L1', start: at('14:05'), end: at('14:45') }),
    ]);
    expect(got.horses[0]).toMatchObject({ horse: 'fern', lessonMs: min(40 + 30), waitingMs: 0 });
    expect(got.lessons[0]).toMatchObject({ start: at('14:05'), minutes: 40 });
    expect(got.lessons[0]?.horses[0]?.ramp).toBe(at('13:50'));
    expect(got.corrections.at(-1)?.was).toEqual({ from: at('14:00'), until: at('14:30'), by: null });
    const off = right('lesson1', { about: 'lesson', lesson: 'L1', start: at('14:00'), end: at('14:00') });
    expect(account([...HAND_OPS, off]).lessons[0]?.state).toBe('cancelled');
  });

  test('a horse’s ride time: its own alone; 0: it did not go', () => {
    const ride = (minutes: number) => right('ride0', { about: 'ride', lesson: 'L1', horse: 'fern', minutes });
    const lengths = (of: Account) =>
      of.horses.map(({ horse, lessons, lessonMs }) => [horse, lessons, lessonMs]);
    expect(lengths(account([...HAND_OPS, ride(12)])).slice(0, 2)).toEqual([
      ['fern', 2, min(12 + 30)],
      ['moss', 2, min(30 + 30)],
    ]);
    expect(lengths(account([...HAND_OPS, ride(0)]))[0]).toEqual(['fern', 1, min(30)]);
  });

  test('is declined of another day’s times, of somebody unknown and of a lesson that ends before it begins', () => {
    const { board } = played(HAND_OPS);
    const why = (correction: Correction) => decide(board, right('no0', correction)).why?.code;
    expect(why({ about: 'lesson', lesson: 'L1', start: at('15:00'), end: at('14:00') })).toBe('dayOver');
    expect(
      why({ about: 'stage', prep: 'fern.1', stage: 'tack', at: at('14:00') + 24 * 60 * MINUTE_MS, by: null }),
    ).toBe('dayOver');
    expect(why({ about: 'stage', prep: 'fern.1', stage: 'tack', at: at('14:00'), by: 'zed' })).toBe(
      'unknownPerson',
    );
    expect(why({ about: 'ride', lesson: 'L1', horse: 'nobody', minutes: 5 })).toBe('unknownHorse');
  });
});

test('a day under way is counted so far', () => {
  const { board, entries } = played(HAND_OPS);
  const now = at('14:20');
  const record = { date: DATE, day: board.day, entries, rules: barn.rules, now };
  const got = accountOfDay(record, { barn, corrections: [], workedBefore: () => [] });
  // The first lesson since 14:00; the second is to come.
  expect(got.horses.map(({ horse, lessonMs }) => [horse, lessonMs])).toEqual([
    ['fern', min(20)],
    ['moss', min(20)],
  ]);
  expect(got.lessons.map(({ state }) => state)).toEqual(['held', 'toCome']);
});
