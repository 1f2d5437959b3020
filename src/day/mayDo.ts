/** What may be done from where a tablet hangs. */
import type { Day } from './board.ts';
import type { Op, OpFact, OpKind, Reason } from './ops.ts';
import type { Role } from './places.ts';

const AISLE: readonly OpKind[] = [
  'stagesFinished',
  'stageStarted',
  'itemsTicked',
  'placesChecked',
  'helpAsked',
  'helpAnswered',
  'helpEnded',
  'findingSeen',
  'volunteerArrived',
  'undone',
];
const DOOR: readonly OpKind[] = [
  'horsePulled',
  'horseReleased',
  'findingSeen',
  'findingRead',
  'weatherRead',
  'placesChecked',
  'ridersUp',
  'ridersDown',
  'helpAnswered',
  'helpEnded',
  'undone',
];

/** What of the kinds of op a tablet in this role may send. The coordinator may send every kind. */
function mayDo(role: Role, fact: OpFact): boolean {
  switch (role) {
    case 'aisle':
      // The instructor's own check is made where the instructor stands.
      return AISLE.includes(fact.kind) && !(fact.kind === 'placesChecked' && fact.check === 'instructor');
    case 'door':
      return DOOR.includes(fact.kind);
    case 'coordinator':
      return true;
  }
}

/** Why this op may not come from a tablet in this role; null when it may. Only the coordinator undoes for others. */
export function objectionHere(role: Role, op: Op, day: Day): Reason | null {
  if (!mayDo(role, op.fact)) return { code: 'notAllowedHere' };
  if (op.fact.kind !== 'undone' || role === 'coordinator') return null;
  const target = op.fact.op;
  const recent = day.recent.find((r) => r.op === target);
  return recent && recent.device !== op.device ? { code: 'notYours' } : null;
}
