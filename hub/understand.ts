/** From a tablet's frame to its message, or why it cannot be taken: each connection says hello first, and once. */
import { HUB_DEVICE } from '#core/day/hubDevice.ts';
import { parseFrame } from '#core/wire/frame.ts';
import { AnyHello, FromTablet, type FromHub } from '#core/wire/messages.ts';
import { PROTOCOL } from '#core/wire/protocol.ts';
import type { Session } from './session.ts';

export type Refusal = Extract<FromHub, { say: 'refused' }>['code'];
export type Hello = Extract<FromTablet, { say: 'hello' }>;

type Understood =
  | { readonly hello: Hello }
  | { readonly message: Exclude<FromTablet, Hello> }
  | { readonly refused: Refusal };

/** Never throws, whatever `text` is. */
export function understand({ now }: Session, text: string): Understood {
  if (now.state === 'waiting') {
    const hello = parseFrame(AnyHello, text);
    if (hello && hello.protocol !== PROTOCOL) return { refused: 'otherVersion' };
  }
  const message = parseFrame(FromTablet, text);
  if (!message) return { refused: 'malformed' };
  if (message.say !== 'hello') return now.state === 'waiting' ? { refused: 'helloFirst' } : { message };
  return now.state !== 'waiting' || message.device === HUB_DEVICE
    ? { refused: 'malformed' }
    : { hello: message };
}
