/** The browser behind the link: its sockets, clocks and timers. */
import type { Clocks } from './clock.ts';
import type { Surroundings } from './socket.ts';

export const browserClocks: Clocks = { mono: () => performance.now(), wall: () => Date.now() };

export const browserSurroundings: Surroundings = {
  dial: (on) => {
    const scheme = location.protocol === 'https:' ? 'wss' : 'ws';
    const socket = new WebSocket(`${scheme}://${location.host}/live`);
    socket.onopen = on.opened;
    socket.onclose = on.closed;
    socket.onmessage = ({ data }: MessageEvent<unknown>) => {
      if (typeof data === 'string') on.said(data);
    };
    return {
      send: (text) => socket.send(text),
      close: () => {
        socket.onclose = null;
        socket.close();
      },
    };
  },
  after: (ms, run) => {
    const timer = setTimeout(run, ms);
    return () => clearTimeout(timer);
  },
  random: Math.random,
};
