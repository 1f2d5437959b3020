/**
 * One afternoon tapped by hand: three horses, two lessons, three volunteers, everything at full minutes. What it comes to is
 * worked out on paper in the tests that use it. Invented.
 */
import type { Board } from '#core/day/board.ts';
import { emptyDay } from '#core/day/emptyDay.ts';
import { evolve } from '#core/day/evolve.ts';
import type { Entry, Fact, Op, OpFact } from '#core/day/ops.ts';
import { Sequence } from '#core/day/sequence.ts';
import type { DayRecord } from '#core/ledger/record.ts';
import { MINUTE_MS } from '#core/time/units.ts';
import { entry, NOON, smallBoard } from '../../properties/day-arbitraries.ts';

export const DATE = '2026-05-11';

/** `13:05` of that day in the barn's zone, where `NOON` is 13:00. */
export function at(time: string): number {
  const [hours = 0, minutes = 0] = time.split(':').map(Number);
  return NOON + ((hours - 13) * 60 + minutes) * MINUTE_MS;
}

const place = { rider: null, leader: null, sideWalkers: [], cancelled: false };

/** The barn, and the lessons as they were planned: nobody has come yet. */
export function handBoard(): Board {
  const barn = smallBoard().barn;
  const lessons: Fact[] = [
    {
      kind: 'lessonAdded',
      lesson: {
        id: 'L1',
        name: 'First',
        start: at('14:00'),
        minutes: 30,
        arena: null,
        instructor: 'ines',
        cancelled: false,
        places: [
          { ...place, id: 'p1', rider: 'r1', horse: 'fern', tack: 't1', sideWalkers: ['ben'] },
          { ...place, id: 'p2', horse: 'moss', tack: 't1' },
        ],
      },
    },
    {
      kind: 'lessonAdded',
      lesson: {
        id: 'L2',
        name: 'Second',
        start: at('14:45'),
        minutes: 30,
        arena: null,
        instructor: null,
        cancelled: false,
        places: [
          { ...place, id: 'p1', rider: 'r1', horse: 'fern', tack: 't2', leader: 'cho' },
          { ...place, id: 'p2', horse: 'moss', tack: 't1' },
          { ...place, id: 'p3', horse: 'sorrel', tack: 't1' },
        ],
      },
    },
  ];
  const start: Board = { barn, day: emptyDay(DATE), findings: [], worked: [] };
  const board = lessons.reduce((next, fact, i) => evolve(next, entry(i + 1, fact)), start);
  return { ...board, day: { ...board.day, recent: [] } };
}

const taps: readonly [time: string, by: string | null, fact: OpFact][] = [
  ['13:00', null, { kind: 'volunteerArrived', volunteer: 'ada' }],
  ['13:01', 'ines', { kind: 'workMoved', pieces: ['fern.1:feet', 'fern.1:coat'], to: 'ada', before: null }],
  ['13:02', null, { kind: 'volunteerArrived', volunteer: 'ben' }],
  ['13:05', 'ada', { kind: 'stageStarted', prep: 'fern.1', stage: 'feet' }],
  ['13:05', 'ben', { kind: 'stageStarted', prep: 'moss.1', stage: 'feet' }],
  [
    '13:08',
    'ben',
    {
      kind: 'findingSeen',
      horse: 'moss',
      finding: { on: 'foot', foot: 'LF', kind: 'shoe-sprung' },
      words: 'moved a little',
    },
  ],
  ['13:09', 'ben', { kind: 'stagesFinished', prep: 'moss.1', stages: ['feet'] }],
  ['13:10', 'ada', { kind: 'stagesFinished', prep: 'fern.1', stages: ['feet'] }],
  ['13:10', 'ben', { kind: 'stageStarted', prep: 'moss.1', stage: 'coat' }],
  ['13:12', 'ines', { kind: 'findingRead', finding: 'hand5' }],
  ['13:22', 'ada', { kind: 'stagesFinished', prep: 'fern.1', stages: ['coat'] }],
  ['13:23', 'ada', { kind: 'stageStarted', prep: 'fern.1', stage: 'tack' }],
  ['13:31', 'ada', { kind: 'stagesFinished', prep: 'fern.1', stages: ['tack'] }],
  ['13:40', 'ben', { kind: 'stagesFinished', prep: 'moss.1', stages: ['coat'] }],
  ['13:41', 'ada', { kind: 'stageStarted', prep: 'moss.1', stage: 'tack' }],
  ['13:49', 'ada', { kind: 'stagesFinished', prep: 'moss.1', stages: ['tack'] }],
  ['13:55', 'ines', { kind: 'placeCancelled', lesson: 'L2', place: 'p3' }],
  ['13:56', 'ines', { kind: 'undone', op: 'hand16' }],
  ['14:00', 'cho', { kind: 'stageStarted', prep: 'sorrel.1', stage: 'feet' }],
  ['14:06', 'cho', { kind: 'stagesFinished', prep: 'sorrel.1', stages: ['feet'] }],
  ['14:10', 'ines', { kind: 'horsePulled', horse: 'sorrel', hold: 'today', why: 'looked stiff' }],
  ['14:18', 'ines', { kind: 'horseReleased', horse: 'sorrel', word: 'sound at trot' }],
  // Two stages at one go, by nobody: neither length is known.
  ['14:29', null, { kind: 'stagesFinished', prep: 'sorrel.1', stages: ['coat'] }],
  ['14:31', 'ada', { kind: 'stageStarted', prep: 'fern.2', stage: 'tack' }],
  ['14:35', null, { kind: 'volunteerLeft', volunteer: 'ben' }],
  ['14:36', 'ada', { kind: 'stagesFinished', prep: 'fern.2', stages: ['tack'] }],
  ['15:20', null, { kind: 'volunteerLeft', volunteer: 'cho' }],
];

export const HAND_OPS: readonly Op[] = taps.map(([time, by, fact], i) => ({
  id: `hand${i}`,
  device: 'd1',
  by,
  tappedAt: at(time),
  fact,
}));

/** Ada's going home was forgotten, and Cho had come ten minutes before her first tap. */
export const HAND_CORRECTIONS: readonly Op[] = [
  {
    id: 'right0',
    device: 'd1',
    by: 'ines',
    tappedAt: at('16:00'),
    fact: {
      kind: 'ledgerCorrected',
      date: DATE,
      correction: { about: 'stay', volunteer: 'ada', of: 'hand0', from: at('13:00'), until: at('15:40') },
      why: 'forgot to tap when leaving',
    },
  },
  {
    id: 'right1',
    device: 'd1',
    by: 'ines',
    tappedAt: at('16:01'),
    fact: {
      kind: 'ledgerCorrected',
      date: DATE,
      correction: { about: 'stay', volunteer: 'cho', of: 'hand18', from: at('13:50'), until: at('15:20') },
      why: 'was in the tack room',
    },
  },
];

/** What a hub makes of these ops, and the board after them. Throws when one is declined: the day would not be as written. */
export function played(ops: readonly Op[], start = handBoard()): { board: Board; entries: Entry[] } {
  const sequence = new Sequence({ board: start, seq: 0, at: 0, seen: [] });
  const entries = ops.flatMap((op) => {
    const { entry: made, outcome } = sequence.accept(op, 'coordinator', op.tappedAt);
    if (outcome.why) throw new Error(`${op.id} ${op.fact.kind}: ${outcome.why.code}`);
    return made ?? [];
  });
  return { board: sequence.board, entries };
}

/** The day as it is put by when it is over. */
export function handRecord(ops: readonly Op[] = HAND_OPS): DayRecord {
  const { board, entries } = played(ops);
  return { date: DATE, day: board.day, entries, rules: board.barn.rules, now: null };
}
