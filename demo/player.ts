/** Plays an afternoon on a running hub: four tablets over real sockets, and the simulated people at them. */
import { setTimeout as delay } from 'node:timers/promises';
import type { Board } from '#core/day/board.ts';
import type { Role, TabletPlace } from '#core/day/places.ts';
import {
  Afternoon,
  AFTER_MS,
  lastLessonEnd,
  TABLETS,
  type AfternoonOptions,
  type Tablet,
} from './afternoon.ts';
import { TabletClient } from './tablet.ts';

/** Somebody else may move or cancel lessons meanwhile, so the end of the afternoon is looked at this often. */
const LOOK_AGAIN_MS = 1000;

const PLACES: Readonly<Record<Tablet, TabletPlace>> = {
  'aisle-near': { role: 'aisle', stalls: [] },
  'aisle-far': { role: 'aisle', stalls: [] },
  'door-indoor': { role: 'door', arena: null, metres: 8 },
  'coordinator-hand': { role: 'coordinator' },
};

const SEES: Readonly<Record<Role, Tablet>> = {
  aisle: 'aisle-near',
  door: 'door-indoor',
  coordinator: 'coordinator-hand',
};

/** What of an afternoon does not come from the hub's own board. */
export type Cast = Omit<AfternoonOptions, 'board'>;

/** Resolves when the afternoon is over; rejects with the signal's reason when it is ended before. `url`: the hub's socket. */
export async function playAfternoon(url: string, cast: Cast, signal: AbortSignal): Promise<void> {
  // Whatever ends the afternoon also ends the tablets.
  const ended = new AbortController();
  const either = AbortSignal.any([signal, ended.signal]);
  try {
    const tablets = Object.fromEntries(
      TABLETS.map((name) => [name, new TabletClient(url, name, PLACES[name], either)]),
    ) as Record<Tablet, TabletClient>;
    await Promise.all(TABLETS.map((name) => tablets[name].ready()));
    await play(tablets, cast, either);
  } finally {
    ended.abort();
  }
}

async function play(tablets: Record<Tablet, TabletClient>, cast: Cast, signal: AbortSignal): Promise<void> {
  const clock = tablets['coordinator-hand'];
  const boardOf = (role: Role): Board => tablets[SEES[role]].board;
  const afternoon = new Afternoon({ ...cast, board: clock.board });
  for (;;) {
    const now = clock.barnNow;
    const end = (lastLessonEnd(clock.board) ?? cast.from) + AFTER_MS;
    if (now >= end) return;
    if (afternoon.dueAt > now) {
      const waitMs = (Math.min(afternoon.dueAt, end) - now) / clock.rate;
      await delay(Math.min(Math.ceil(waitMs), LOOK_AGAIN_MS), undefined, { signal });
      continue;
    }
    for (const { tablet, op } of afternoon.act(now, boardOf)) {
      const seq = await tablets[tablet].tap(op);
      await Promise.all(TABLETS.map((name) => tablets[name].reached(seq)));
    }
  }
}
