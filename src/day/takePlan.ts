/** A date of the barn's book copied into the day. From then on it is the day's own. */
import { own } from '../barn/basics.ts';
import type { Board } from './board.ts';
import type { OpFact } from './ops.ts';
import { regrouped, withDay, withPresence, type Stamp } from './steps.ts';

export type PlanTaken = Extract<OpFact, { kind: 'planTaken' }>;

/** The board with what the plan brings that the day has not. */
export function takePlan(board: Board, plan: PlanTaken, stamp: Stamp): Board {
  if (board.day.date !== plan.date) return board;
  const fresh = plan.lessons.filter(({ id }) => own(board.day.lessons, id) === undefined);
  const lessons = { ...board.day.lessons };
  for (const lesson of fresh) lessons[lesson.id] = lesson;
  const dated = withDay(board, (day) => ({ ...day, planTaken: day.planTaken ?? stamp.id }));
  const planned = fresh.length > 0 ? regrouped(withDay(dated, (day) => ({ ...day, lessons }))) : dated;
  return plan.people
    .filter(({ volunteer }) => own(board.barn.volunteers, volunteer) && !own(board.day.hands, volunteer))
    .reduce(
      (next, { volunteer, from, until }) =>
        withPresence(next, volunteer, () => ({ state: 'expected', since: stamp.at, from, until })),
      planned,
    );
}
