/** What a tablet and the hub say about who may do what: pairing's outcome, a coordinator's PIN, the list of tablets. */
import * as z from 'zod/mini';
import { Id, Instant, ShownName } from '../barn/fields.ts';
import { TabletPlace } from '../day/places.ts';

/** As it is typed, or whole, as an address brings it: with 128 bits in base64url that only the coordinator's screen shows. */
export const PairingCode = z.string().check(z.regex(/^\d{6}(-[\w-]{22})?$/));

const Pin = z.string().check(z.regex(/^\d{1,12}$/));

/** What somebody at a tablet asks of the gate. */
const Wish = z.discriminatedUnion('to', [
  z.object({ to: z.literal('unlock'), by: Id, pin: Pin }),
  z.object({ to: z.literal('lock') }),
  /** The barn's first coordinator, from a tablet that was paired at the hub itself. */
  z.object({ to: z.literal('begin'), name: ShownName, pin: Pin }),
  /** Gives somebody of the staff a PIN, or another one. */
  z.object({ to: z.literal('setPin'), staff: Id, pin: Pin }),
  z.object({ to: z.literal('takePin'), staff: Id }),
  z.object({ to: z.literal('makeCode') }),
  /** Where a tablet hangs from now on. Its own, too, while it hangs nowhere yet. */
  z.object({ to: z.literal('hang'), tablet: Id, name: ShownName, place: TabletPlace }),
  z.object({ to: z.literal('strikeOff'), tablet: Id }),
]);
export type Wish = z.infer<typeof Wish>;

export const AskGate = z.object({ say: z.literal('askGate'), ask: Id, wish: Wish });

/** Somebody has touched a tablet that a coordinator has unlocked. */
export const Touched = z.object({ say: z.literal('touched') });

/** Why the gate does not do it. `wait`: not before `waitMs` have passed. `needsConsole`: pair this tablet at the hub first. */
export const GATE_REFUSALS = [
  'wrongPin',
  'wait',
  'weakPin',
  'notAllowedHere',
  'unknown',
  'needsConsole',
  'lastPin',
  'notWritten',
] as const;

const GateOutcome = z.discriminatedUnion('is', [
  z.object({ is: z.literal('done') }),
  /** `code` to be typed, `whole` for an address; `until` in hub time. */
  z.object({ is: z.literal('code'), code: z.string(), whole: z.string(), until: Instant }),
  z.object({ is: z.literal('refused'), why: z.enum(GATE_REFUSALS), waitMs: z.int() }),
]);
export type GateOutcome = z.infer<typeof GateOutcome>;

export const GateAnswer = z.object({ say: z.literal('gateAnswer'), ask: Id, outcome: GateOutcome });
export type GateAnswer = z.infer<typeof GateAnswer>;

/** What a tablet is to the hub. A hub that is open to all, as the demo is, says none of it. */
export const Here = z.object({
  device: Id,
  name: ShownName,
  /** Where it hangs; null: nobody has said yet. */
  home: z.nullable(TabletPlace),
  /** As what it is heard just now. */
  place: TabletPlace,
  /** Who has unlocked it. */
  by: z.nullable(Id),
  /** Who has a PIN. */
  coordinators: z.array(z.object({ id: Id, name: ShownName })),
});
export type Here = z.infer<typeof Here>;

/** Every tablet on the hub's list, for the coordinator. */
export const TabletsKnown = z.object({
  say: z.literal('tabletsKnown'),
  tablets: z.array(
    z.object({
      id: Id,
      name: ShownName,
      place: z.nullable(TabletPlace),
      /** Hub time. */
      seenAt: Instant,
      isHere: z.boolean(),
    }),
  ),
});
export type KnownTablet = z.infer<typeof TabletsKnown>['tablets'][number];
