/** From a tablet's frame to its message, or why it cannot be taken: each connection says hello first, and once. */
import * as z from 'zod/mini';
import { HUB_DEVICE } from '#core/day/hubDevice.ts';
import { Id } from '#core/barn/fields.ts';
import { Op } from '#core/day/ops.ts';
import { parseFrame } from '#core/wire/frame.ts';
import { AnyHello, FromTablet, type FromHub } from '#core/wire/messages.ts';
import { OPS_A_FRAME, PROTOCOL } from '#core/wire/protocol.ts';
import type { Session } from './session.ts';

export type Refusal = Extract<FromHub, { say: 'refused' }>['code'];
export type Hello = Extract<FromTablet, { say: 'hello' }>;

type Understood =
  | { readonly hello: Hello }
  | { readonly message: Exclude<FromTablet, Hello> }
  | { readonly refused: Refusal; readonly ops?: readonly string[] };

/** Taps as far as they can be told apart. */
const AnyTaps = z.object({
  say: z.literal('taps'),
  ops: z.array(z.unknown()).check(z.maxLength(OPS_A_FRAME)),
});
const AnyOp = z.object({ id: Id });

/** Never throws, whatever `text` is. */
export function understand({ now }: Session, text: string): Understood {
  if (now.state === 'waiting') {
    const hello = parseFrame(AnyHello, text);
    if (hello && hello.protocol !== PROTOCOL) return { refused: 'otherVersion' };
  }
  const message = parseFrame(FromTablet, text);
  if (!message) {
    const ops = now.state === 'live' ? unreadableTaps(text) : [];
    return { refused: 'malformed', ...(ops.length > 0 && { ops }) };
  }
  if (message.say !== 'hello') return now.state === 'waiting' ? { refused: 'helloFirst' } : { message };
  return now.state !== 'waiting' || message.device === HUB_DEVICE
    ? { refused: 'malformed' }
    : { hello: message };
}

/** Ids of the ops that make a frame of taps unreadable: one that a tablet has kept too long must not hold up the rest. */
function unreadableTaps(text: string): string[] {
  const taps = parseFrame(AnyTaps, text)?.ops ?? [];
  return taps.filter((op) => !Op.safeParse(op).success).flatMap((op) => AnyOp.safeParse(op).data?.id ?? []);
}
