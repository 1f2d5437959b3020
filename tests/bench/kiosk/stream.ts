/** Somebody at another tablet, tapping without rest: a steady stream of ops over a real socket. */
import { WebSocket } from 'ws';
import type { OpFact } from '#core/day/ops.ts';
import { PROTOCOL } from '#core/wire/protocol.ts';

const DEVICE = 'bench-stream';

/** Volunteers come and go in turn, `perSecond` ops a second, until it is stopped. Resolves to how many were sent. */
export function stream(
  port: number,
  volunteers: readonly string[],
  now: () => number,
  perSecond: number,
): { stop: () => number } {
  const socket = new WebSocket(`ws://127.0.0.1:${port}/live`);
  let sent = 0;
  let timer: NodeJS.Timeout | undefined;
  socket.on('open', () => {
    const place = { role: 'coordinator' };
    socket.send(JSON.stringify({ say: 'hello', protocol: PROTOCOL, device: DEVICE, place, since: null }));
    timer = setInterval(() => {
      const volunteer = volunteers[sent % volunteers.length] ?? '';
      const isHere = Math.floor(sent / volunteers.length) % 2 === 0;
      const fact: OpFact = { kind: isHere ? 'volunteerArrived' : 'volunteerLeft', volunteer };
      sent += 1;
      const op = { id: `${DEVICE}-${sent}`, device: DEVICE, by: null, tappedAt: now(), fact };
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
