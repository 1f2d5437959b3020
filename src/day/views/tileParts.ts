/** What a tile says besides its prep: tack to tick, the second person's check, rest between lessons, a call, and how far it is put away. */
import type { Horse } from '../../barn/horse.ts';
import type { Lesson, Place } from '../../barn/lesson.ts';
import { AFTER_STAGES, type AfterStage } from '../../barn/stage.ts';
import { MINUTE_MS } from '../../time/units.ts';
import type { Board, HelpCall, Prep } from '../board.ts';
import { openCalls } from '../help.ts';
import { isFinished, isRidden, lessonsBefore, liveBookings, outAt } from '../preps.ts';
import { checkOf } from '../rides.ts';
import { tickedItems } from '../ticks.ts';

type NameOf = (id: string) => string;

/** How far a horse has come after its last lesson. `ridden`: it has its tack on still. */
export type AfterStatus = 'ridden' | 'untacked' | 'cooled' | 'lookedOver' | 'putAway';

export type TileTack = {
  readonly id: string;
  readonly name: string;
  readonly items: readonly string[];
  readonly ticked: ReadonlySet<string>;
  /** Name of its picture on the hub; null: none. */
  readonly photo: string | null;
};

/** Between two lessons: rests until `until` (ms), with water if the barn says so; `shortMinutes` of the barn's rest are missing. */
export type TileRest = { readonly until: number; readonly water: boolean; readonly shortMinutes: number };

export type TileCall = {
  readonly id: string;
  readonly kind: HelpCall['kind'];
  /** Name of who is called; null: whoever can. */
  readonly to: string | null;
  /** Name of who said they come; null: nobody yet. */
  readonly coming: string | null;
};

/** Girth and stirrups of this place by a second person; `by` null: still to do. */
export type TileCheck = { readonly lesson: string; readonly place: string; readonly by: string | null };

export function tileTack(horse: Horse, prep: Prep | null, place: Place | undefined): TileTack | null {
  const list = horse.tackLists.find((one) => one.id === place?.tack);
  if (!list) return null;
  const { id, name, items, photo = null } = list;
  return { id, name, items, ticked: prep ? tickedItems(prep, id) : new Set(), photo };
}

/** Asked for once the horse is tacked and, where it goes again, out of its lesson before; not with riders up. */
export function tileCheck(
  board: Board,
  lesson: Lesson,
  place: Place,
  now: number,
  nameOf: NameOf,
): TileCheck | null {
  const { rules } = board.barn;
  if (rules.secondCheck === 'off' || isRidden(board.day, lesson, now)) return null;
  const mark = checkOf(board, lesson.id, place.id, 'girth');
  return { lesson: lesson.id, place: place.id, by: mark ? nameOf(mark.by) : null };
}

/** Null: it was in no lesson before, or has rested. */
export function tileRest(
  { barn, day }: Board,
  horse: string,
  next: Lesson | null,
  now: number,
): TileRest | null {
  if (!next) return null;
  const outs = lessonsBefore(liveBookings(day), horse, next.start)
    .map((lesson) => outAt(day, lesson, now))
    .filter((out) => out <= now);
  const out = Math.max(-Infinity, ...outs);
  const until = out + barn.rules.restMinutes * MINUTE_MS;
  if (!(until > now)) return null;
  const shortMinutes = Math.max(0, Math.ceil((until - next.start) / MINUTE_MS));
  return { until: Math.min(until, next.start), water: barn.rules.waterBetween, shortMinutes };
}

export function tileCall(board: Board, horse: string, nameOf: NameOf): TileCall | null {
  const call = openCalls(board).find((one) => one.horse === horse);
  if (!call) return null;
  const coming = call.answers[0]?.by;
  return {
    id: call.id,
    kind: call.kind,
    to: call.to === null ? null : nameOf(call.to),
    coming: coming === undefined ? null : nameOf(coming),
  };
}

const AFTER_STATUS: Readonly<Record<AfterStage, AfterStatus>> = {
  untack: 'untacked',
  cool: 'cooled',
  look: 'lookedOver',
  away: 'putAway',
};

/** By the last stage done. */
export function afterStatus(prep: Prep): AfterStatus {
  const last = AFTER_STAGES.findLast((stage) => isFinished(prep, stage));
  return last ? AFTER_STATUS[last] : 'ridden';
}
