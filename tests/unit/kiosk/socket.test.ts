/** The line to the hub with a pretend network and pretend time: says hello first, notices silence, dials again. */
import { describe, expect, it } from 'vitest';
import { PROTOCOL } from '#core/wire/protocol.ts';
import { heard } from '../../../kiosk/src/lib/link/heard.ts';
import { HubSocket, pauseMs, type LineEvents } from '../../../kiosk/src/lib/link/socket.ts';

const HELLO = {
  say: 'hello',
  protocol: PROTOCOL,
  device: 'tablet',
  place: { role: 'coordinator' },
  since: null,
} as const;
const PONG = JSON.stringify({ say: 'pong', t1: 0, t2: 1, t3: 1 });

function network() {
  const lines: { on: LineEvents; sent: unknown[]; isClosed: boolean }[] = [];
  const timers: { at: number; run: () => void }[] = [];
  let now = 0;
  const socket = new HubSocket(
    {
      dial: (on) => {
        const line = { on, sent: [] as unknown[], isClosed: false };
        lines.push(line);
        return { send: (text) => line.sent.push(JSON.parse(text)), close: () => (line.isClosed = true) };
      },
      read: heard,
      after: (ms, run) => {
        const timer = { at: now + ms, run };
        timers.push(timer);
        return () => {
          const i = timers.indexOf(timer);
          if (i >= 0) timers.splice(i, 1);
        };
      },
      random: () => 0.5,
    },
    {
      hello: () => HELLO,
      ping: () => ({ say: 'ping', t1: now }),
      said: (message) => said.push(message.say),
      lost: () => said.push('lost'),
    },
  );
  const said: string[] = [];
  /** Lets `ms` pass, running what falls due on the way in its order. */
  const pass = (ms: number): void => {
    const until = now + ms;
    for (;;) {
      const next = timers.filter(({ at }) => at <= until).sort((a, b) => a.at - b.at)[0];
      if (!next) break;
      timers.splice(timers.indexOf(next), 1);
      now = next.at;
      next.run();
    }
    now = until;
  };
  return { socket, lines, timers, said, pass };
}

describe('HubSocket', () => {
  it('says hello before anything else', () => {
    const { socket, lines } = network();
    socket.start();
    expect(socket.send({ say: 'ping', t1: 0 })).toBe(false);
    lines[0]?.on.opened();
    expect(lines[0]?.sent[0]).toEqual(HELLO);
  });

  it('drops what is not a message of the hub, without falling over', () => {
    const { socket, lines, said } = network();
    socket.start();
    lines[0]?.on.opened();
    for (const junk of ['', '{', '{"say":"pong"}', '[]', '{"say":"hello"}']) lines[0]?.on.said(junk);
    lines[0]?.on.said(PONG);
    expect(said).toEqual(['pong']);
  });

  it('gives a silent line up and dials again', () => {
    const { socket, lines, said, pass } = network();
    socket.start();
    lines[0]?.on.opened();
    pass(9000);
    lines[0]?.on.said(PONG);
    pass(9000);
    expect(lines).toHaveLength(1);
    pass(2000);
    expect(lines[0]?.isClosed).toBe(true);
    expect(said).toEqual(['pong', 'lost']);
    expect(lines).toHaveLength(2);
  });

  it('dials again after a line that closes, and hears nothing more from the old one', () => {
    const { socket, lines, said, pass } = network();
    socket.start();
    lines[0]?.on.opened();
    lines[0]?.on.closed();
    pass(1000);
    expect(lines).toHaveLength(2);
    lines[0]?.on.said(PONG);
    expect(said).toEqual(['lost']);
  });

  it('leaves no timer and no line behind when stopped', () => {
    const { socket, lines, timers, pass } = network();
    socket.start();
    lines[0]?.on.opened();
    socket.stop();
    expect(timers).toEqual([]);
    pass(60_000);
    expect(lines).toHaveLength(1);
    expect(lines[0]?.isClosed).toBe(true);
  });

  it('waits longer after each failure, up to a bound, never less than half of the full pause', () => {
    for (let attempt = 0; attempt < 20; attempt += 1) {
      const [least, most] = [pauseMs(attempt, 0), pauseMs(attempt, 1)];
      expect(least).toBe(most / 2);
      expect(most).toBeLessThanOrEqual(8000);
      expect(pauseMs(attempt + 1, 0)).toBeGreaterThanOrEqual(least);
    }
  });
});
