/** The invented barn's afternoon: five lessons, ten volunteers, and who is to prepare which horse. */
import type { Stage } from '#core/barn/stage.ts';
import type { Board } from '#core/day/board.ts';
import { dayFromBook } from '#core/day/fromBook.ts';
import { HOUR_MS } from '#core/time/units.ts';
import { instantAt } from '#core/time/zone.ts';
import { DEMO_ZONE, demoBarn } from './barn.ts';
import { demoBook } from './book.ts';
import { piecesOf, prepFor, setUp, type Given } from './setUp.ts';

/** Wall time at which the afternoon begins on the board. */
export const DEMO_START = '13:10';

/** How long before the afternoon the resting horse was held, in hours: since three days ago. */
const RESTING_HOURS = 75;

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
  const records = demoBarn(start - RESTING_HOURS * HOUR_MS);
  const barn = { ...records, book: demoBook(records, date) };
  const { lessons, people: hours } = dayFromBook(barn, date);
  const given = (board: Board): readonly Given[] => TASKS.map((task) => givenBy(board, task));
  return setUp(barn, { date, lessons, hours, given }, start);
}

function givenBy(board: Board, [to, lessonId, horse, stages]: Task): Given {
  return { to, pieces: piecesOf(prepFor(board, lessonId, horse), stages) };
}
