/** What the gate keeps: the tablets, the coordinators' PINs, and how often PINs were tried. No secret in the clear. */
import * as z from 'zod/mini';
import { Id, Instant, ShownName } from '#core/barn/fields.ts';
import { TabletPlace } from '#core/day/places.ts';
import { PinKey } from './pin.ts';
import { NO_BARN_TRIES } from './tries.ts';

const KnownTablet = z.object({
  id: Id,
  name: ShownName,
  /** Null: nobody has said yet where it hangs. */
  place: z.nullable(TabletPlace),
  /** SHA-256 of its token, in hex. */
  tokenHash: z.string().check(z.regex(/^[0-9a-f]{64}$/)),
  pairedAt: Instant,
  seenAt: Instant,
  /** Whoever paired it stood at the hub, and may make the first coordinator. */
  atHub: z.boolean(),
});
export type KnownTablet = z.infer<typeof KnownTablet>;

export const GateRecord = z.object({
  version: z.literal(1),
  tablets: z.array(KnownTablet),
  pins: z.record(Id, PinKey),
  tries: z.object({
    tablets: z.record(Id, z.object({ wrong: z.int(), until: z.number() })),
    barn: z.object({ level: z.number(), at: z.number() }),
  }),
});
export type GateRecord = z.infer<typeof GateRecord>;

export const EMPTY_GATE: GateRecord = {
  version: 1,
  tablets: [],
  pins: {},
  tries: { tablets: {}, barn: NO_BARN_TRIES },
};
