/** A whole answer on stand-ins in plain sentences, worded on the hub for the coordinator's tablet. */
import { own } from '../barn/basics.ts';
import type { Board, PlaceRef } from '../day/board.ts';
import type { Blocked, Change, StandInOption, StandIns } from '../plan/standIns/model.ts';
import type { SaidBlocked, SaidOption, SaidStandIns } from '../wire/standIns.ts';
import { sayAgainst, sayBlock, sayFor, saySideEffect, sayTask, sayUnblock, STAND_INS } from './en/plan.ts';
import type { NameOf } from './names.ts';

/** The answer as the coordinator reads it. It carries riders' figures: it is for no wall. */
export function sayStandIns(board: Board, found: StandIns): SaidStandIns {
  const nameOf = namesOf(board);
  return {
    options: found.options.map((option) => sayOption(board, option, nameOf)),
    blocked: sayBlocked(board, found.blocked, nameOf),
    exact: found.exact,
  };
}

function sayOption(
  board: Board,
  { fact, changes, tasks, sideEffects }: StandInOption,
  nameOf: NameOf,
): SaidOption {
  return {
    fact,
    changes: changes.map((change) => sayChange(board, change, nameOf)),
    tasks: tasks.map((task) => sayTask(task, nameOf)),
    effects: sideEffects.map((effect) => saySideEffect(effect, nameOf)),
  };
}

function sayChange(board: Board, change: Change, nameOf: NameOf): SaidOption['changes'][number] {
  const { lesson, place, horse, horseName, instead, readiness } = change;
  return {
    lesson,
    place,
    horse,
    says: STAND_INS.changeIn(
      STAND_INS.change(horseName, instead === null ? null : nameOf(instead)),
      placeName(board, change, nameOf),
    ),
    start: own(board.day.lessons, lesson)?.start ?? 0,
    ready: readiness.ready,
    chance: readiness.chance,
    for: change.for.map(sayFor),
    against: change.against.map(sayAgainst),
  };
}

/** Grouped by place, in the order they came. */
function sayBlocked(board: Board, blocked: readonly Blocked[], nameOf: NameOf): SaidBlocked[] {
  const places = new Map<string, SaidBlocked>();
  for (const one of blocked) {
    const key = `${one.lesson} ${one.place}`;
    const said = places.get(key) ?? {
      lesson: one.lesson,
      place: one.place,
      says: placeName(board, one, nameOf),
      horses: [],
    };
    said.horses.push({
      horse: one.horse,
      name: one.horseName,
      blocks: one.blocks.map((block) => ({
        why: sayBlock(block, nameOf),
        unblock: block.unblock && sayUnblock(block.unblock, nameOf),
      })),
    });
    places.set(key, said);
  }
  return [...places.values()];
}

/** `First, Robin`. */
function placeName({ barn, day }: Board, { lesson, place }: PlaceRef, nameOf: NameOf): string {
  const rider = own(day.lessons, lesson)?.places.find(({ id }) => id === place)?.rider ?? null;
  const called = rider === null ? null : (own(barn.riders, rider)?.callName ?? null);
  return called === null ? nameOf(lesson) : `${nameOf(lesson)}, ${called}`;
}

function namesOf({ barn, day }: Board): NameOf {
  return (id) =>
    (own(barn.horses, id) ?? own(barn.volunteers, id) ?? own(barn.staff, id) ?? own(day.lessons, id))?.name ??
    id;
}
