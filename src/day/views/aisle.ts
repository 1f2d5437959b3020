/** What an aisle tablet shows: a tile a horse, with where its prep stands, who is on it and what is next. */
import { own } from '../../barn/basics.ts';
import type { Caution, Hold, Horse, Isolation } from '../../barn/horse.ts';
import type { Lesson } from '../../barn/lesson.ts';
import { asks, type Clearance, type Stage } from '../../barn/stage.ts';
import type { Advice } from '../../care/advise.ts';
import type { Forecast } from '../../plan/model.ts';
import { pieceId, stagesOf, type Board, type Prep } from '../board.ts';
import {
  isFinished,
  isOver,
  lessonEnd,
  lessonsOf,
  markOf,
  nextStage,
  prepStatus,
  rampTime,
  type PrepStatus,
} from '../preps.ts';
import { adviceFor, tellingFindings } from '../findings.ts';
import { newStandIns } from './standIn.ts';
import { readiness, type Readiness } from './words.ts';

/** `inLesson`: tacked and its lesson is running. `free`: no lesson for it any more today. */
export type TileStatus = PrepStatus | 'pulled' | 'inLesson' | 'free';

export type TileStage = {
  readonly stage: Stage;
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
  readonly kind: Prep['kind'];
  readonly stages: readonly TileStage[];
  readonly next: Stage | null;
  /** What a person must be cleared for to do the next stage. */
  readonly asks: readonly Clearance[];
  /** Id and name of who is on it now. */
  readonly onIt: { readonly id: string; readonly name: string; readonly since: number } | null;
  /** Who the next stage is given to. */
  readonly given: { readonly id: string; readonly name: string } | null;
  readonly rampTime: number | null;
  readonly lesson: { readonly name: string; readonly start: number; readonly end: number } | null;
  readonly feetBy: number | null;
  readonly ready: number | null;
  readonly spareMs: number | null;
  /** There is time for mane and tail now, and somebody for it; null: not known, or no longer asked. */
  readonly extras: boolean | null;
  readonly tack: { readonly name: string; readonly items: readonly string[] } | null;
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
  const prep = currentPrep(board, horse.id, now);
  const stall = own(barn.stalls, horse.stall);
  const lessons = prep ? lessonsOf(day, prep) : [];
  const lesson = lessons.find((one) => lessonEnd(one) > now) ?? null;
  const known = prep && forecast ? own(forecast.preps, prep.id) : undefined;
  const next = prep ? nextStage(prep) : null;
  const place = lesson?.places.find((one) => one.horse === horse.id && !one.cancelled);
  const hold = horse.holds.at(-1) ?? null;
  const advice = adviceFor(board, horse.id);
  const asksMuch = advice !== null && advice.holds.length > 0;
  const owner = prep && next ? ownerOf(board, pieceId(prep.id, next)) : null;
  return {
    horse: horse.id,
    name: horse.name,
    stall: stall?.name ?? horse.stall,
    metres: stall?.metres ?? 0,
    status: tileStatus(prep, lesson, hold, now),
    word: prep ? readiness(board, prep, forecast) : hold ? 'pulled' : 'ready',
    prep: prep?.id ?? null,
    kind: prep?.kind ?? 'full',
    stages: prep ? stagesOf(prep).map((stage) => tileStage(board, prep, stage, next, known)) : [],
    next: hold ? null : next,
    asks: next ? asks(horse.experiencedFor, next) : [],
    onIt: prep?.onIt
      ? { id: prep.onIt.by, name: personName(board, prep.onIt.by), since: prep.onIt.since }
      : null,
    given: owner === null ? null : { id: owner, name: personName(board, owner) },
    rampTime: prep ? rampTime(day, prep, barn.rules) : null,
    lesson: lesson && { name: lesson.name, start: lesson.start, end: lessonEnd(lesson) },
    feetBy: known?.feetBy ?? null,
    ready: known?.ready ?? null,
    spareMs: known?.spareMs ?? null,
    extras: hold || next === null ? null : (known?.extras ?? null),
    tack: horse.tackLists.find((list) => list.id === place?.tack) ?? null,
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

function tileStatus(prep: Prep | null, lesson: Lesson | null, hold: Hold | null, now: number): TileStatus {
  if (hold) return 'pulled';
  if (!prep || !lesson) return 'free';
  const status = prepStatus(prep);
  return status === 'tacked' && lesson.start <= now ? 'inLesson' : status;
}

function tileStage(
  board: Board,
  prep: Prep,
  stage: Stage,
  next: Stage | null,
  known: Forecast['preps'][string] | undefined,
): TileStage {
  const mark = markOf(prep, stage);
  const underWay = !mark && prep.onIt?.stage === stage ? prep.onIt : null;
  const by = mark?.by ?? underWay?.by ?? null;
  return {
    stage,
    state: isFinished(prep, stage) ? 'done' : underWay ? 'underWay' : stage === next ? 'next' : 'open',
    by: by === null ? null : personName(board, by),
    at: mark?.at ?? underWay?.since ?? null,
    neededBy: known?.pieces.find((piece) => piece.stage === stage)?.neededBy ?? null,
  };
}

/** In whose queue a piece stands; null: nobody's. */
export function ownerOf({ day }: Board, piece: string): string | null {
  return Object.entries(day.hands).find(([, hands]) => hands.queue.includes(piece))?.[0] ?? null;
}

export function personName({ barn }: Pick<Board, 'barn'>, id: string): string {
  return own(barn.volunteers, id)?.name ?? own(barn.staff, id)?.name ?? id;
}

function byStall(a: AisleTile, b: AisleTile): number {
  return a.metres - b.metres || a.stall.localeCompare(b.stall, 'en', { numeric: true });
}

/**
 * New stand-ins, then open work, least spare first; then what is done, in a lesson, free or pulled. A horse kept apart for
 * its skin comes after the others with work.
 */
function byUrgency(a: AisleTile, b: AisleTile): number {
  const rank = (tile: AisleTile): number =>
    tile.next === null ? 3 : tile.isolation ? 2 : tile.standIn ? 0 : 1;
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
