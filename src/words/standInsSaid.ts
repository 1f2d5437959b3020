/** A whole answer on stand-ins in plain sentences, worded on the hub in the language of the coordinator's tablet. */
import { own } from '../barn/basics.ts';
import type { Board, PlaceRef } from '../day/board.ts';
import type { Blocked, Change, StandInOption, StandIns } from '../plan/standIns/model.ts';
import type { SaidBlocked, SaidOption, SaidStandIns } from '../wire/standIns.ts';
import type { NameOf } from './names.ts';
import type { Subjects } from './subjects.ts';

type Plan = Subjects['plan'];

/** What each sentence is made with. */
type Told = { readonly board: Board; readonly nameOf: NameOf; readonly plan: Plan };

/** The answer as the coordinator reads it. It carries riders' figures: it is for no wall. */
export function sayStandIns(board: Board, found: StandIns, plan: Plan): SaidStandIns {
  const told = { board, nameOf: namesOf(board), plan };
  return {
    options: found.options.map((option) => sayOption(told, option)),
    blocked: sayBlocked(told, found.blocked),
    exact: found.exact,
  };
}

function sayOption(told: Told, { fact, changes, tasks, sideEffects }: StandInOption): SaidOption {
  const { nameOf, plan } = told;
  return {
    fact,
    changes: changes.map((change) => sayChange(told, change)),
    tasks: tasks.map((task) => plan.sayTask(task, nameOf)),
    effects: sideEffects.map((effect) => plan.saySideEffect(effect, nameOf)),
  };
}

function sayChange(told: Told, change: Change): SaidOption['changes'][number] {
  const { board, nameOf, plan } = told;
  const { lesson, place, horse, horseName, instead, readiness } = change;
  return {
    lesson,
    place,
    horse,
    says: plan.STAND_INS.changeIn(
      plan.STAND_INS.change(horseName, instead === null ? null : nameOf(instead)),
      placeName(told, change),
    ),
    start: own(board.day.lessons, lesson)?.start ?? 0,
    ready: readiness.ready,
    chance: readiness.chance,
    for: change.for.map(plan.sayFor),
    against: change.against.map(plan.sayAgainst),
  };
}

/** Grouped by place, in the order they came. */
function sayBlocked(told: Told, blocked: readonly Blocked[]): SaidBlocked[] {
  const { nameOf, plan } = told;
  const places = new Map<string, SaidBlocked>();
  for (const one of blocked) {
    const key = `${one.lesson} ${one.place}`;
    const said = places.get(key) ?? {
      lesson: one.lesson,
      place: one.place,
      says: placeName(told, one),
      horses: [],
    };
    said.horses.push({
      horse: one.horse,
      name: one.horseName,
      blocks: one.blocks.map((block) => ({
        why: plan.sayBlock(block, nameOf),
        unblock: block.unblock && plan.sayUnblock(block.unblock, nameOf),
      })),
    });
    places.set(key, said);
  }
  return [...places.values()];
}

/** `First, Robin`. */
function placeName({ board: { barn, day }, nameOf }: Told, { lesson, place }: PlaceRef): string {
  const rider = own(day.lessons, lesson)?.places.find(({ id }) => id === place)?.rider ?? null;
  const called = rider === null ? null : (own(barn.riders, rider)?.callName ?? null);
  return called === null ? nameOf(lesson) : `${nameOf(lesson)}, ${called}`;
}

function namesOf({ barn, day }: Board): NameOf {
  return (id) =>
    (own(barn.horses, id) ?? own(barn.volunteers, id) ?? own(barn.staff, id) ?? own(day.lessons, id))?.name ??
    id;
}
