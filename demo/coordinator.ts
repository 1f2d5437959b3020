/**
 * A simulated coordinator between the script's cues: walks by every two minutes and gives a horse that will be late to
 * somebody who can do it sooner. Deliberately plain, and no copy of the planner's own reckoning.
 */
import { own } from '#core/barn/basics.ts';
import { asks, isCleared } from '#core/barn/stage.ts';
import { pieceId } from '#core/day/pieces.ts';
import type { OpFact } from '#core/day/ops.ts';
import { isCountedOn } from '#core/day/presence.ts';
import { MINUTE_MS } from '#core/time/units.ts';
import type { OpenPrep, Scene } from './scene.ts';

export const ROUND_MS = 2 * MINUTE_MS;

/** A horse is seen to be late this long before anything is done, so that whoever watches the board sees it too. */
const WATCH_MS = 3 * MINUTE_MS;
/** After a move the horse is left alone this long. */
const REST_MS = 12 * MINUTE_MS;
/** A move must make a horse ready this much sooner. */
const WORTH_MS = 4 * MINUTE_MS;
/** How long an overdue volunteer is waited for, again and again. */
const OVERDUE_MS = 10 * MINUTE_MS;

/** Since when each prep was seen to be late, and when it was last moved; ms. */
export type Watch = {
  readonly lateSince: Readonly<Record<string, number>>;
  readonly movedAt: Readonly<Record<string, number>>;
};

export const NOTHING_SEEN: Watch = { lateSince: {}, movedAt: {} };

/** One round through the aisle at `now`: at most one horse is given to somebody else. */
export function goRound(
  scene: Scene,
  watch: Watch,
  now: number,
  earliestMs: number,
): { watch: Watch; fact: OpFact | null } {
  const soon = scene.open.filter((one) => one.rampTime - now <= earliestMs && one.overAt > now);
  const late = soon
    .map((one) => ({ one, ready: readyBy(scene, one, now) }))
    .filter(({ one, ready }) => ready > one.rampTime)
    .sort((a, b) => b.ready - b.one.rampTime - (a.ready - a.one.rampTime));
  const lateSince = Object.fromEntries(
    late.map(({ one }) => [one.prep.id, own(watch.lateSince, one.prep.id) ?? now]),
  );
  for (const { one, ready } of late) {
    const { id } = one.prep;
    const watched = now - (lateSince[id] ?? now) >= WATCH_MS;
    const rested = now - (own(watch.movedAt, id) ?? -Infinity) >= REST_MS;
    if (!watched || !rested || one.prep.onIt) continue;
    const taker = soonest(scene, one, now);
    if (!taker || ready - taker.ready < WORTH_MS) continue;
    const fact = handOver(scene, one, taker.id);
    return { watch: { lateSince, movedAt: { ...watch.movedAt, [id]: now } }, fact };
  }
  return { watch: { lateSince, movedAt: watch.movedAt }, fact: null };
}

/** What is open of this prep goes to `to`, in front of everything they have not begun. */
export function handOver({ board }: Scene, one: OpenPrep, to: string): OpFact {
  const queue = own(board.day.hands, to)?.queue ?? [];
  const begun = Object.values(board.day.preps).find((prep) => prep.onIt?.by === to);
  const horse = own(board.barn.horses, one.prep.horse);
  const has = own(board.barn.volunteers, to)?.clearances ?? [];
  const pieces = one.open
    .filter((stage) => isCleared(has, asks(horse?.experiencedFor ?? [], stage)))
    .map((stage) => pieceId(one.prep.id, stage));
  const before = queue.find(
    (piece) => !pieces.includes(piece) && !(begun && piece.startsWith(`${begun.id}:`)),
  );
  return { kind: 'workMoved', pieces, to, before: before ?? null };
}

/** Who could have this horse ready first; null: nobody here may do its next stage. */
export function soonest(scene: Scene, one: OpenPrep, now: number): { id: string; ready: number } | null {
  const { board } = scene;
  let best: { id: string; ready: number } | null = null;
  for (const [id, { presence }] of Object.entries(board.day.hands)) {
    const has = own(board.barn.volunteers, id)?.clearances ?? [];
    if (presence.state !== 'here' || !isCleared(has, one.asks)) continue;
    const workMs = openMs(scene, one, id);
    const from = freeSlot(scene, id, Math.max(doneWith(scene, id, now), one.freeFrom), workMs);
    if (from === null) continue;
    // Somebody cleared for part of it needs another to finish.
    const horse = own(board.barn.horses, one.prep.horse);
    const all = one.open.every((stage) => isCleared(has, asks(horse?.experiencedFor ?? [], stage)));
    const ready = from + workMs + (all ? 0 : 5 * MINUTE_MS);
    if (!best || ready < best.ready) best = { id, ready };
  }
  return best;
}

/** When the horse will be ready, as whoever has its next stage goes on now; Infinity: nobody has it. */
function readyBy(scene: Scene, one: OpenPrep, now: number): number {
  const [next = 'tack'] = one.open;
  const doer = one.prep.onIt?.by ?? scene.ownerOf.get(pieceId(one.prep.id, next));
  if (doer === undefined) return Infinity;
  const presence = own(scene.board.day.hands, doer)?.presence;
  if (!presence || !isCountedOn(presence)) return Infinity;
  const workMs = openMs(scene, one, doer);
  if (one.prep.onIt) return Math.max(one.prep.onIt.since + workMs, now + MINUTE_MS);
  const here = presence.state === 'here' ? now : expectedAt(presence.from, now);
  const mine = own(scene.board.day.hands, doer)?.queue ?? [];
  const ahead = scene.open.filter((other) => {
    const index = mine.indexOf(pieceId(other.prep.id, other.open[0] ?? 'tack'));
    return index >= 0 && index < mine.indexOf(pieceId(one.prep.id, next)) && other.rampTime <= one.rampTime;
  });
  const aheadMs = ahead.reduce((sum, other) => sum + openMs(scene, other, doer), 0);
  const from = freeSlot(scene, doer, Math.max(here + aheadMs, one.freeFrom), workMs);
  return from === null ? Infinity : from + workMs;
}

function expectedAt(from: number | null, now: number): number {
  return from !== null && from > now ? from : now + OVERDUE_MS;
}

/** When this person is through with the horse they are on. */
function doneWith(scene: Scene, id: string, now: number): number {
  const on = scene.open.find(({ prep }) => prep.onIt?.by === id);
  if (!on?.prep.onIt) return now;
  return Math.max(on.prep.onIt.since + openMs(scene, on, id), now + MINUTE_MS);
}

function openMs({ board }: Scene, { open }: OpenPrep, id: string): number {
  const pace = own(board.barn.volunteers, id)?.private?.pace ?? 1;
  return open.reduce((sum, stage) => sum + board.barn.rules.stageMinutes[stage] * MINUTE_MS * pace, 0);
}

/** First start from `at` on that is not within or across a lesson of theirs, and ends before they go home. */
function freeSlot(scene: Scene, id: string, at: number, lengthMs: number): number | null {
  const until = own(scene.board.day.hands, id)?.presence.until ?? null;
  let start = at;
  for (const duty of scene.dutiesOf(id)) {
    if (start + lengthMs > duty.from && start < duty.until) start = duty.until;
  }
  return until !== null && start + lengthMs > until ? null : start;
}
