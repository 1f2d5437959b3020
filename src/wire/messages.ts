/**
 * Everything a tablet and the hub say to each other, as JSON text frames. Both sides parse with these schemas; what
 * does not parse gets a `refused` and changes nothing. Change a shape here and `PROTOCOL` goes up by one: a tablet of
 * another version is told to reload.
 */
import { OPS_A_FRAME, MOST_OPEN } from './protocol.ts';
import * as z from 'zod/mini';
import { Id, Instant, ShownName } from '../barn/fields.ts';
import { ZoneName } from '../barn/barn.ts';
import { Board } from '../day/board.ts';
import { Entry, Op, OpFact, Reason } from '../day/ops.ts';
import { TabletPlace } from '../day/places.ts';
import { Forecast } from '../plan/model.ts';
import { AskGate, GateAnswer, Here, PairingCode, TabletsKnown, Touched } from './gate.ts';
import { Suggested } from './suggested.ts';
import { AskStandIns, StandInsAnswer } from './standIns.ts';

/** A tablet's own milliseconds, from any zero: only differences count. */
const Millis = z.number().check(z.gte(-1e15), z.lte(1e15));

/* Tablet to hub */

/**
 * First message of every connection. Who the tablet is says the cookie it got when it was paired; `device` and `place`
 * count only on a hub that is open to all, as the demo is. `since`: the last entry this tablet has, to be told only what
 * came after. `open`: its unanswered taps by id.
 */
const Hello = z.object({
  say: z.literal('hello'),
  protocol: z.number(),
  device: Id,
  place: TabletPlace,
  since: z.nullable(z.object({ journal: Id, seq: z.int().check(z.gte(0)) })),
  open: z.optional(z.array(Id).check(z.maxLength(MOST_OPEN))),
});

/** What a hello of any version has: enough to tell a tablet of another one to reload. */
export const AnyHello = z.object({ say: z.literal('hello'), protocol: z.number() });

const Taps = z.object({
  say: z.literal('taps'),
  ops: z.array(Op).check(z.minLength(1), z.maxLength(OPS_A_FRAME)),
});

/** `t1`: the tablet's clock when it asked. */
const Ping = z.object({ say: z.literal('ping'), t1: Millis });

/** What would come of these facts? Nothing is written down. */
const WhatIf = z.object({
  say: z.literal('whatIf'),
  ask: Id,
  facts: z.array(OpFact).check(z.minLength(1), z.maxLength(20)),
});

/** Leave the demo and begin an empty barn, whose hub takes `code` once as a pairing code: its first tablet is this one. */
const StartBarn = z.object({
  say: z.literal('startBarn'),
  name: ShownName,
  zone: ZoneName,
  code: z.optional(PairingCode),
});

export const FromTablet = z.discriminatedUnion('say', [
  Hello,
  Taps,
  Ping,
  WhatIf,
  AskStandIns,
  AskGate,
  Touched,
  StartBarn,
]);
export type FromTablet = z.infer<typeof FromTablet>;

/* Hub to tablet */

/**
 * How the barn's clock runs against the hub's own: barn time = `barn` + `rate` × (hub time − `hub`). Rate 1 with equal
 * zeros outside the demo.
 */
export const BarnClock = z.object({
  hub: Instant,
  barn: Instant,
  rate: z.number().check(z.gte(1), z.lte(1000)),
});
export type BarnClock = z.infer<typeof BarnClock>;

/**
 * Answer to hello. `journal` names the run of sequence numbers: another one means another barn, or one put back from a
 * backup. `board` is null when `entries` brings the tablet up to `seq` from what it has. After any welcome the tablet sends
 * every tap again that is not answered, also after a later one on the same connection.
 */
const Welcome = z.object({
  say: z.literal('welcome'),
  journal: Id,
  seq: z.int().check(z.gte(0)),
  board: z.nullable(Board),
  /** Of the taps the tablet asked after, those that `board` has, or that were declined before it. */
  landed: z._default(z.array(Id), []),
  entries: z.array(Entry),
  clock: BarnClock,
  demo: z.boolean(),
  /** Names the kiosk build the hub serves; a page of another build reloads when nobody is touching it. */
  build: z.string(),
  addresses: z.array(z.string()),
  /** What this tablet is to the hub; left out by one that is open to all. */
  here: z.optional(Here),
});

const Entries = z.object({ say: z.literal('entries'), entries: z.array(Entry) });

/** One answer per op of a `taps`, in its order, once it is on disk. */
const Answered = z.object({
  say: z.literal('answered'),
  answers: z.array(z.object({ id: Id, seq: z.int(), why: z.nullable(Reason) })),
});

/** `t2`, `t3`: the hub's clock on receiving and on sending, ms since 1970 (RFC 5905's receive and transmit times). */
const Pong = z.object({ say: z.literal('pong'), t1: Millis, t2: Millis, t3: Millis });

const Forecasted = z.object({ say: z.literal('forecast'), forecast: Forecast });

const Considered = z.object({
  say: z.literal('considered'),
  ask: Id,
  why: z.nullable(Reason),
  forecast: z.nullable(Forecast),
});

/** Why nothing can be written down. `failing`: the disk answers with errors. */
export const WriteTrouble = z.enum(['full', 'writeProtected', 'failing']);
export type WriteTrouble = z.infer<typeof WriteTrouble>;

/**
 * How the hub itself is: after each welcome, and when it changes. All instants are hub time. `readOnly`: nothing can be
 * written down, so no tap is taken; each stays on its tablet, which sends it again after the welcome that follows when
 * writing works again. `tornTail`: at its start the hub cut an unfinished last write off its journal, and kept it in a
 * file. `clockJump`: the hub's clock was set by so much, and with it every countdown; said for a while.
 */
const Status = z.object({
  say: z.literal('status'),
  version: z.string(),
  readOnly: z.nullable(z.object({ since: Instant, why: WriteTrouble })),
  tornTail: z.nullable(z.object({ bytes: z.int(), keptAs: z.string() })),
  clockJump: z.nullable(z.object({ at: Instant, byMs: z.int() })),
});
export type Status = z.infer<typeof Status>;

export const REFUSALS = [
  'malformed',
  'helloFirst',
  'otherVersion',
  'notAllowedHere',
  'notADemo',
  'tooMuch',
  'readOnly',
  'notPaired',
] as const;

/**
 * The connection's message could not be taken. After `otherVersion` the tablet reloads its page; after
 * `notPaired` it asks for a pairing code; after `readOnly` it keeps
 * its taps, until another welcome on the same connection asks for them. `ops`: those of a frame of taps that the hub
 * cannot read, and will not be able to; the tablet lets go of them. The others of that frame it sends again.
 */
const Refused = z.object({
  say: z.literal('refused'),
  code: z.enum(REFUSALS),
  ops: z.optional(z.array(Id).check(z.minLength(1), z.maxLength(OPS_A_FRAME))),
});

export const FromHub = z.discriminatedUnion('say', [
  Welcome,
  Entries,
  Answered,
  Pong,
  Forecasted,
  Considered,
  Suggested,
  StandInsAnswer,
  GateAnswer,
  TabletsKnown,
  Status,
  Refused,
]);
export type FromHub = z.infer<typeof FromHub>;
export type Welcome = z.infer<typeof Welcome>;
