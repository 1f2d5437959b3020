/** Others at their horses, tapping without rest: a steady stream of ops over a real socket. */
import { WebSocket } from 'ws';
import type { OpFact } from '#core/day/ops.ts';
import { PROTOCOL } from '#core/wire/protocol.ts';

const DEVICE = 'bench-stream';

/** The feet of each of these preps are checked, then that is taken back one by one, `perSecond` ops a second, until it is stopped. */
export function stream(
  port: number,
  preps: readonly string[],
  now: () => number,
  perSecond: number,
): { stop: () => number } {
  const socket = new WebSocket(`ws://127.0.0.1:${port}/live`);
  let sent = 0;
  let timer: NodeJS.Timeout | undefined;
  const idOf = (n: number): string => `${DEVICE}-${n}`;
  const factOf = (n: number): OpFact => {
    const isBack = Math.floor(n / preps.length) % 2 === 1;
    if (isBack) return { kind: 'undone', op: idOf(n - preps.length) };
    return { kind: 'stagesFinished', prep: preps[n % preps.length] ?? '', stages: ['feet'] };
  };
  socket.on('open', () => {
    const place = { role: 'coordinator' };
    socket.send(JSON.stringify({ say: 'hello', protocol: PROTOCOL, device: DEVICE, place, since: null }));
    timer = setInterval(() => {
      const op = { id: idOf(sent), device: DEVICE, by: null, tappedAt: now(), fact: factOf(sent) };
      sent += 1;
      socket.send(JSON.stringify({ say: 'taps', ops: [op] }));
    }, 1000 / perSecond);
  });
  return {
    stop: () => {
      clearInterval(timer);
      socket.terminate();
      return sent;
    },
  };
}
