/** The invented barn's afternoon: five lessons, ten volunteers, and who is to prepare which horse. */
import type { Lesson, Place } from '#core/barn/lesson.ts';
import type { Stage } from '#core/barn/stage.ts';
import type { Board } from '#core/day/board.ts';
import { HOUR_MS } from '#core/time/units.ts';
import { instantAt } from '#core/time/zone.ts';
import { DEMO_ZONE, demoBarn } from './barn.ts';
import { tackId } from './horses.ts';
import { piecesOf, prepFor, setUp, type Given } from './setUp.ts';

/** Wall time at which the afternoon begins on the board. */
export const DEMO_START = '13:10';

/** How long before the afternoon the resting horse was held, in hours: since three days ago. */
const RESTING_HOURS = 75;

type Ridden = {
  readonly rider: string;
  readonly horse: string;
  readonly tack: string;
  readonly leader?: string;
  readonly sideWalkers?: readonly string[];
};

type Taught = {
  readonly id: string;
  readonly name: string;
  readonly start: string;
  readonly minutes: number;
  readonly arena: string;
  readonly instructor: string;
  readonly ridden: readonly Ridden[];
};

const TAUGHT: readonly Taught[] = [
  {
    id: 'l1',
    name: 'First steps',
    start: '14:00',
    minutes: 30,
    arena: 'a1',
    instructor: 'i1',
    ridden: [
      { rider: 'r1', horse: 'bramble', tack: 'Fleece', leader: 'v1', sideWalkers: ['v5'] },
      { rider: 'r2', horse: 'dot', tack: 'English', leader: 'v2' },
      { rider: 'r3', horse: 'gus', tack: 'Western' },
      { rider: 'r4', horse: 'moss', tack: 'Fleece', leader: 'v3', sideWalkers: ['v6'] },
    ],
  },
  {
    id: 'l2',
    name: 'Walk and turn',
    start: '14:55',
    minutes: 30,
    arena: 'a2',
    instructor: 'i2',
    ridden: [
      { rider: 'r5', horse: 'bramble', tack: 'Fleece', leader: 'v10', sideWalkers: ['v7'] },
      { rider: 'r6', horse: 'clay', tack: 'English', leader: 'v4' },
      { rider: 'r7', horse: 'fern', tack: 'Fleece' },
      { rider: 'r8', horse: 'hazel', tack: 'English', leader: 'v8' },
    ],
  },
  {
    id: 'l3',
    name: 'Poles and patterns',
    start: '15:45',
    minutes: 35,
    arena: 'a1',
    instructor: 'i1',
    ridden: [
      { rider: 'r9', horse: 'clay', tack: 'Fleece', leader: 'v1', sideWalkers: ['v5'] },
      { rider: 'r10', horse: 'fern', tack: 'Fleece', leader: 'v3' },
      { rider: 'r11', horse: 'juno', tack: 'English' },
      { rider: 'r12', horse: 'kip', tack: 'Western', leader: 'v2', sideWalkers: ['v6'] },
    ],
  },
  {
    id: 'l4',
    name: 'Quiet half hour',
    start: '16:15',
    minutes: 30,
    arena: 'a2',
    instructor: 'i2',
    ridden: [
      { rider: 'r13', horse: 'otis', tack: 'Fleece', leader: 'v10', sideWalkers: ['v8'] },
      { rider: 'r14', horse: 'rook', tack: 'Western', leader: 'v4' },
      { rider: 'r15', horse: 'dot', tack: 'English' },
    ],
  },
  {
    id: 'l5',
    name: 'Trot for those who like',
    start: '17:10',
    minutes: 30,
    arena: 'a1',
    instructor: 'i1',
    ridden: [
      { rider: 'r16', horse: 'tansy', tack: 'English', leader: 'v1', sideWalkers: ['v6'] },
      { rider: 'r17', horse: 'hazel', tack: 'Western', leader: 'v3' },
      { rider: 'r18', horse: 'gus', tack: 'Western', leader: 'v2', sideWalkers: ['v5'] },
      { rider: 'r19', horse: 'moss', tack: 'Fleece', leader: 'v10' },
    ],
  },
];

/** Hours given for today, wall time. */
const COMING: readonly (readonly [volunteer: string, from: string, until: string])[] = [
  ['v1', '13:10', '18:00'],
  ['v2', '13:10', '18:00'],
  ['v3', '13:10', '18:00'],
  ['v4', '13:15', '18:00'],
  ['v5', '13:10', '18:00'],
  ['v6', '13:15', '18:00'],
  ['v7', '13:15', '16:45'],
  ['v8', '13:30', '18:00'],
  ['v9', '13:30', '18:00'],
  ['v10', '13:15', '18:00'],
];

type Task = readonly [volunteer: string, lesson: string, horse: string, stages?: readonly Stage[]];

/** Mostly whole horses, in the order each person is to take them. */
const TASKS: readonly Task[] = [
  ['v1', 'l1', 'bramble'],
  ['v2', 'l1', 'moss'],
  ['v3', 'l1', 'gus', ['feet']],
  ['v6', 'l1', 'gus', ['coat', 'tack']],
  ['v7', 'l1', 'dot'],
  ['v4', 'l2', 'clay'],
  ['v10', 'l2', 'hazel'],
  ['v9', 'l2', 'fern'],
  ['v3', 'l3', 'kip'],
  ['v2', 'l3', 'juno'],
  // Clay's change of tack is left to whoever is free.
  ['v2', 'l4', 'otis', ['feet']],
  ['v10', 'l4', 'otis', ['tack']],
  ['v5', 'l4', 'otis', ['coat']],
  ['v4', 'l4', 'rook'],
  ['v8', 'l4', 'dot'],
  ['v1', 'l5', 'tansy'],
  ['v3', 'l5', 'hazel'],
  ['v2', 'l5', 'gus'],
  ['v7', 'l5', 'moss'],
];

/** The board as it stands when the afternoon begins on `date` (ISO 8601, in the demo barn's zone). */
export function demoBoard(date: string): Board {
  const at = (time: string): number => instantAt({ date, time }, DEMO_ZONE);
  const start = at(DEMO_START);
  const plan = {
    date,
    lessons: TAUGHT.map((taught) => lesson(taught, at(taught.start))),
    hours: COMING.map(([volunteer, from, until]) => ({ volunteer, from: at(from), until: at(until) })),
    given: (board: Board) => TASKS.map((task) => given(board, task)),
  };
  return setUp(demoBarn(start - RESTING_HOURS * HOUR_MS), plan, start);
}

function lesson({ ridden, ...taught }: Taught, start: number): Lesson {
  const places = ridden.map((one, i): Place => ({
    id: `${taught.id}p${i + 1}`,
    rider: one.rider,
    horse: one.horse,
    tack: tackId(one.horse, one.tack),
    leader: one.leader ?? null,
    sideWalkers: [...(one.sideWalkers ?? [])],
    wanted: { leader: one.leader !== undefined, sideWalkers: one.sideWalkers?.length ?? 0 },
    cancelled: false,
  }));
  return { ...taught, start, cancelled: false, places };
}

function given(board: Board, [to, lessonId, horse, stages]: Task): Given {
  return { to, pieces: piecesOf(prepFor(board, lessonId, horse), stages) };
}
