/** What an aisle tablet shows: a tile a horse, with where its prep stands, who is on it and what is next. */
import { own } from '../../barn/basics.ts';
import type { Caution, Hold, Horse, Isolation } from '../../barn/horse.ts';
import type { Lesson } from '../../barn/lesson.ts';
import { asks, isAfterStage, type Clearance, type WorkStage } from '../../barn/stage.ts';
import type { Advice } from '../../care/advise.ts';
import type { Forecast } from '../../plan/model.ts';
import { afterDue, afterPrep, afterStagesOf, openAfter } from '../after.ts';
import type { Board, Day, Prep } from '../board.ts';
import { ownerOf } from '../owners.ts';
import { pieceId, stagesOf } from '../pieces.ts';
import {
  isFinished,
  isOver,
  isRidden,
  lessonEnd,
  lessonsOf,
  markOf,
  nextStage,
  outAt,
  prepStatus,
  rampTime,
  type PrepStatus,
} from '../preps.ts';
import { adviceFor, tellingFindings } from '../findings.ts';
import { newStandIns } from './standIn.ts';
import {
  afterStatus,
  tileCall,
  tileCheck,
  tileRest,
  tileTack,
  type AfterStatus,
  type TileCall,
  type TileCheck,
  type TileRest,
  type TileTack,
} from './tileParts.ts';
import { readiness, type Readiness } from './words.ts';

/** `inLesson`: tacked and its lesson is running. `free`: no lesson for it any more today, and nothing was done on it. */
export type TileStatus = PrepStatus | AfterStatus | 'pulled' | 'inLesson' | 'free';

export type TileStage = {
  readonly stage: WorkStage;
  readonly state: 'done' | 'underWay' | 'next' | 'open';
  /** Who finished it, or is on it. */
  readonly by: string | null;
  readonly at: number | null;
  readonly neededBy: number | null;
};

export type AisleTile = {
  readonly horse: string;
  readonly name: string;
  readonly stall: string;
  readonly metres: number;
  readonly status: TileStatus;
  readonly word: Readiness;
  readonly prep: string | null;
  /** `after`: the stages are those after its last lesson. */
  readonly kind: Prep['kind'] | 'after';
  readonly stages: readonly TileStage[];
  readonly next: WorkStage | null;
  /** What a person must be cleared for to do the next stage. */
  readonly asks: readonly Clearance[];
  /** Id and name of who is on it now. */
  readonly onIt: { readonly id: string; readonly name: string; readonly since: number } | null;
  /** Who the next stage is given to. */
  readonly given: { readonly id: string; readonly name: string } | null;
  /** Name of who has time for it, after a lesson, where it is given to nobody; null: not known. */
  readonly couldDo: string | null;
  readonly rampTime: number | null;
  readonly lesson: { readonly name: string; readonly start: number; readonly end: number } | null;
  readonly feetBy: number | null;
  readonly ready: number | null;
  readonly spareMs: number | null;
  /** There is time for mane and tail now, and somebody for it; null: not known, or no longer asked. */
  readonly extras: boolean | null;
  readonly tack: TileTack | null;
  /** Null: not asked now. */
  readonly check: TileCheck | null;
  /** Out of one lesson and not yet in the next. */
  readonly rest: TileRest | null;
  /** Somebody here asks for a hand. */
  readonly call: TileCall | null;
  readonly hold: Hold | null;
  /** What the barn's rules make of its findings; null: none that asks for anything. */
  readonly advice: Advice | null;
  /** Nobody of the staff has read all of them yet: the work waits for that. */
  readonly waits: boolean;
  /** It has just come in for another horse. */
  readonly standIn: boolean;
  readonly cautions: readonly Caution[];
  readonly notes: string;
  /** Its own grooming kit, by name; null: it has none. */
  readonly kit: string | null;
  readonly isolation: Isolation | null;
};

export type TileOrder = 'stall' | 'urgency';

/** The tiles for these stalls (none named: all), at barn time `now` in ms. */
export function aisleTiles(
  board: Board,
  forecast: Forecast | null,
  now: number,
  stalls: readonly string[],
  order: TileOrder,
): AisleTile[] {
  const standIns = newStandIns(board, now);
  const tiles = Object.values(board.barn.horses)
    .filter((horse) => stalls.length === 0 || stalls.includes(horse.stall))
    .map((horse) => tile(board, horse, forecast, now, standIns));
  return tiles.sort((a, b) => (order === 'urgency' ? byUrgency(a, b) : 0) || byStall(a, b));
}

/** The prep a horse is on now: the first, by ramp time, whose lessons are not over. */
export function currentPrep(board: Board, horse: string, now: number): Prep | null {
  const preps = Object.values(board.day.preps)
    .filter((prep) => prep.horse === horse && prep.places.length > 0 && !isOver(board.day, prep, now))
    .map((prep) => ({ prep, ramp: rampTime(board.day, prep, board.barn.rules) ?? Infinity }))
    .sort((a, b) => a.ramp - b.ramp);
  return preps[0]?.prep ?? null;
}

function tile(
  board: Board,
  horse: Horse,
  forecast: Forecast | null,
  now: number,
  standIns: ReadonlySet<string>,
): AisleTile {
  const { barn, day } = board;
  const nameOf = (id: string): string => personName(board, id);
  const coming = currentPrep(board, horse.id, now);
  const through = afterPrep(board, horse.id, now);
  const after = through && (coming === null || openAfter(through, barn.rules).length > 0) ? through : null;
  const prep = after ?? coming;
  const stall = own(barn.stalls, horse.stall);
  const lessons = coming ? lessonsOf(day, coming) : [];
  const lesson = lessons.find((one) => outAt(day, one, now) > now) ?? null;
  const known = prep && !after && forecast ? own(forecast.preps, prep.id) : undefined;
  const foreseen = after && forecast ? own(forecast.after, after.id) : undefined;
  const due = after && afterDue(board, after, now);
  const stages = after ? afterStagesOf(after, barn.rules) : prep ? stagesOf(prep) : [];
  const next = after ? (openAfter(after, barn.rules)[0] ?? null) : prep ? nextStage(prep) : null;
  const place = lesson?.places.find((one) => one.horse === horse.id && !one.cancelled);
  const hold = horse.holds.at(-1) ?? null;
  const advice = adviceFor(board, horse.id);
  const asksMuch = advice !== null && advice.holds.length > 0;
  const owner = prep && next ? ownerOf(day, pieceId(prep.id, next)) : null;
  const free = owner === null ? foreseen?.pieces.find(({ stage }) => stage === next)?.by : null;
  const neededBy = (stage: WorkStage): number | null =>
    due && isAfterStage(stage)
      ? due[stage]
      : (known?.pieces.find((piece) => piece.stage === stage)?.neededBy ?? null);
  const isNext = coming !== null && !after && next === null && !hold;
  return {
    horse: horse.id,
    name: horse.name,
    stall: stall?.name ?? horse.stall,
    metres: stall?.metres ?? 0,
    status: hold ? 'pulled' : after ? afterStatus(after) : tileStatus(day, coming, lesson, now),
    word: coming && !after ? readiness(board, coming, forecast) : hold ? 'pulled' : 'ready',
    prep: prep?.id ?? null,
    kind: after ? 'after' : (prep?.kind ?? 'full'),
    stages: prep ? stages.map((stage) => tileStage(board, prep, stage, next, neededBy(stage))) : [],
    next: hold && !after ? null : next,
    asks: next ? asks(horse.experiencedFor, next) : [],
    onIt: prep?.onIt
      ? { id: prep.onIt.by, name: personName(board, prep.onIt.by), since: prep.onIt.since }
      : null,
    given: owner === null ? null : { id: owner, name: personName(board, owner) },
    couldDo: free && !prep?.onIt ? personName(board, free) : null,
    rampTime: coming && !hold ? rampTime(day, coming, barn.rules) : null,
    lesson: lesson && { name: lesson.name, start: lesson.start, end: lessonEnd(lesson) },
    feetBy: known?.feetBy ?? null,
    ready: known?.ready ?? null,
    spareMs: known?.spareMs ?? null,
    extras: hold || next === null ? null : (known?.extras ?? null),
    tack: tileTack(horse, coming, place),
    check: isNext && lesson && place ? tileCheck(board, lesson, place, now, nameOf) : null,
    rest: after || hold ? null : tileRest(board, horse.id, lesson, now),
    call: tileCall(board, horse.id, nameOf),
    hold,
    advice: advice?.level === 'clear' ? null : advice,
    waits: asksMuch && tellingFindings(board, horse.id).some(({ read }) => read.length === 0),
    standIn: standIns.has(horse.id),
    cautions: horse.cautions,
    notes: horse.notes,
    kit: horse.kit ?? null,
    isolation: horse.isolation ?? null,
  };
}

function tileStatus(day: Day, prep: Prep | null, lesson: Lesson | null, now: number): TileStatus {
  if (!prep || !lesson) return 'free';
  const status = prepStatus(prep);
  const begun = lesson.start <= now || isRidden(day, lesson, now);
  return status === 'tacked' && begun ? 'inLesson' : status;
}

function tileStage(
  board: Board,
  prep: Prep,
  stage: WorkStage,
  next: WorkStage | null,
  neededBy: number | null,
): TileStage {
  const mark = markOf(prep, stage);
  const underWay = !mark && prep.onIt?.stage === stage ? prep.onIt : null;
  const by = mark?.by ?? underWay?.by ?? null;
  return {
    stage,
    state: isFinished(prep, stage) ? 'done' : underWay ? 'underWay' : stage === next ? 'next' : 'open',
    by: by === null ? null : personName(board, by),
    at: mark?.at ?? underWay?.since ?? null,
    neededBy,
  };
}

export function personName({ barn }: Pick<Board, 'barn'>, id: string): string {
  return own(barn.volunteers, id)?.name ?? own(barn.staff, id)?.name ?? id;
}

function byStall(a: AisleTile, b: AisleTile): number {
  return a.metres - b.metres || a.stall.localeCompare(b.stall, 'en', { numeric: true });
}

/**
 * New stand-ins, then open work, least spare first; then work after lessons; then what is done, in a lesson, free or pulled.
 * A horse kept apart for its skin comes after the others with work.
 */
function byUrgency(a: AisleTile, b: AisleTile): number {
  const work = (tile: AisleTile): number => (tile.kind === 'after' ? 2 : tile.standIn ? 0 : 1);
  const rank = (tile: AisleTile): number => (tile.next === null ? 4 : tile.isolation ? 3 : work(tile));
  const spare = (tile: AisleTile): number => tile.spareMs ?? tile.rampTime ?? Infinity;
  return rank(a) - rank(b) || (a.next && b.next ? compare(spare(a), spare(b)) : 0);
}

function compare(a: number, b: number): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

/** Badges to choose a person from: those here, by name. */
export function peopleHere({
  barn,
  day,
}: Board): { id: string; name: string; clearances: readonly Clearance[] }[] {
  return Object.entries(day.hands)
    .filter(([, hands]) => hands.presence.state === 'here')
    .flatMap(([id]) => own(barn.volunteers, id) ?? [])
    .map(({ id, name, clearances }) => ({ id, name, clearances }))
    .sort((a, b) => a.name.localeCompare(b.name, 'en'));
}
