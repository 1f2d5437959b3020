/** Where a tablet hangs, and what may be done from there. */
import * as z from 'zod/mini';
import { Id } from '../barn/basics.ts';
import type { Day } from './board.ts';
import type { Op, OpFact, OpKind, Reason } from './ops.ts';

/** What a tablet tells the hub about itself. */
export const TabletPlace = z.discriminatedUnion('role', [
  /** Stalls this tablet shows; empty: all. */
  z.object({ role: z.literal('aisle'), stalls: z.array(Id) }),
  /** Arena null: all arenas. Distance in metres at which people stand. */
  z.object({
    role: z.literal('door'),
    arena: z.nullable(Id),
    metres: z.number().check(z.gte(0.5), z.lte(30)),
  }),
  z.object({ role: z.literal('coordinator') }),
]);
export type TabletPlace = z.infer<typeof TabletPlace>;
export type Role = TabletPlace['role'];

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
