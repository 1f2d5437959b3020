/** What the coordinator shows: each person's work against its needed-by times, who is behind first, and nobody's work. */
import { own } from '../../barn/basics.ts';
import { asks, isAfterStage, type Clearance, type WorkStage } from '../../barn/stage.ts';
import type { AfterPieceForecast, Forecast, HandsForecast, PieceForecast } from '../../plan/model.ts';
import { afterDue, afterPrep, openAfter } from '../after.ts';
import type { Board, Prep, Presence } from '../board.ts';
import { ownerOf } from '../owners.ts';
import { pieceId, pieceParts } from '../pieces.ts';
import { isOver, isPulled, openStages } from '../preps.ts';
import { isCountedOn } from '../presence.ts';
import { dutiesOn, type RoleDuty, type RoleName } from '../roles.ts';
import { personName } from './aisle.ts';

export type LanePiece = {
  readonly id: string;
  readonly prep: string;
  readonly horse: string;
  readonly horseName: string;
  readonly stage: WorkStage;
  readonly asks: readonly Clearance[];
  /** Predicted, whoever does it. */
  readonly start: number | null;
  readonly end: number | null;
  /** After a lesson, where it is nobody's: who has time for it; null: nobody is known. */
  readonly couldDo: { readonly id: string; readonly name: string } | null;
  /** Name of who is expected to do it instead of whose it is; null: they do it, or nobody is known. */
  readonly elsewhere: string | null;
  readonly neededBy: number | null;
  readonly underWay: boolean;
  /** Predicted to end after its needed-by time, in ms; 0: in time or unknown. */
  readonly lateMs: number;
};

/** A piece of theirs that will be late by somebody else's doing: `by` on `piece`, or the lesson the horse is in. */
export type HeldUp = {
  readonly late: string;
  readonly lateMs: number;
  readonly by: string | null;
  readonly piece: { readonly horseName: string; readonly stage: WorkStage } | null;
  readonly lesson: string | null;
};

export type Lane = {
  readonly volunteer: string;
  readonly name: string;
  readonly clearances: readonly Clearance[];
  readonly presence: Presence;
  readonly behindMs: number;
  readonly because: string | null;
  /** Since when they are shown as behind; null: they are not. */
  readonly since: number | null;
  readonly heldUp: HeldUp | null;
  readonly doneAt: number | null;
  readonly pieces: readonly LanePiece[];
  /** Lessons they lead or side-walk in; they have no other work from `from` on. */
  readonly duties: readonly {
    readonly id: string;
    readonly lesson: string;
    readonly role: RoleName;
    readonly from: number;
    readonly until: number;
  }[];
};

export type CoordinatorView = {
  /** People with a part in today, behind first, then by who is here, then by name. */
  readonly lanes: readonly Lane[];
  /** Open work in nobody's queue, or given to somebody who is not coming or has left; what comes after lessons last. */
  readonly nobodys: readonly LanePiece[];
  /** Of those what comes after lessons, for each who has time for it. */
  readonly giveOut: readonly GiveOut[];
  readonly pulled: readonly { readonly horse: string; readonly name: string; readonly why: string }[];
};

const PRESENCE_ORDER: Record<Presence['state'], number> = { here: 0, expected: 1, left: 2, notComing: 3 };

/** At barn time `now` in ms. */
export function coordinatorView(board: Board, forecast: Forecast | null, now: number): CoordinatorView {
  const { barn, day } = board;
  const duties = Map.groupBy(dutiesOn(board, now), (duty) => duty.volunteer);
  const lanes = Object.entries(day.hands)
    .flatMap(([id]) => lane(board, id, forecast, now, duties.get(id) ?? []) ?? [])
    .sort(
      (a, b) =>
        b.behindMs - a.behindMs ||
        PRESENCE_ORDER[a.presence.state] - PRESENCE_ORDER[b.presence.state] ||
        a.name.localeCompare(b.name, 'en'),
    );
  const held = new Set(
    lanes.filter((one) => isCountedOn(one.presence)).flatMap((one) => one.pieces.map((piece) => piece.id)),
  );
  const open = Object.values(day.preps).flatMap((prep) => {
    const pieces = openWork(board, prep, now).map((stage) => ({ stage, id: pieceId(prep.id, stage) }));
    const nobodys = pieces.filter(({ id }) => !held.has(id));
    // Putting a horse away is one person's errand: its first stage stands for the others.
    return nobodys.some(({ stage }) => isAfterStage(stage)) ? nobodys.slice(0, 1) : nobodys;
  });
  const inTurn = [
    ...open.filter(({ stage }) => !isAfterStage(stage)),
    ...open.filter(({ stage }) => isAfterStage(stage)),
  ];
  return {
    lanes,
    nobodys: inTurn.flatMap(({ id }) => lanePiece(board, id, forecast, now) ?? []),
    giveOut: afterGiveOut(board, forecast, now),
    pulled: Object.values(barn.horses)
      .filter((horse) => isPulled(barn, horse.id))
      .map((horse) => ({ horse: horse.id, name: horse.name, why: horse.holds.at(-1)?.why ?? '' })),
  };
}

function lane(
  board: Board,
  id: string,
  forecast: Forecast | null,
  now: number,
  duties: readonly RoleDuty[],
): Lane | null {
  const hands = own(board.day.hands, id);
  const volunteer = own(board.barn.volunteers, id);
  if (!hands || !volunteer) return null;
  const known = forecast ? own(forecast.hands, id) : undefined;
  return {
    volunteer: id,
    name: volunteer.name,
    clearances: volunteer.clearances,
    presence: hands.presence,
    behindMs: known?.behindMs ?? 0,
    because: known?.because ?? null,
    since: known?.since ?? null,
    heldUp: known?.heldUp ? heldUp(board, known.heldUp) : null,
    doneAt: known?.doneAt ?? null,
    pieces: hands.queue.flatMap((piece) => lanePiece(board, piece, forecast, now) ?? []),
    duties: duties.map(({ lesson, role, from, until }) => ({
      id: lesson.id,
      lesson: lesson.name,
      role,
      from,
      until,
    })),
  };
}

function heldUp(board: Board, known: NonNullable<HandsForecast['heldUp']>): HeldUp {
  const parts = known.piece === null ? null : pieceParts(known.piece);
  const prep = parts ? own(board.day.preps, parts.prep) : undefined;
  const horse = prep ? own(board.barn.horses, prep.horse) : undefined;
  return {
    late: known.late,
    lateMs: known.lateMs,
    by: known.by === null ? null : personName(board, known.by),
    piece: parts && horse ? { horseName: horse.name, stage: parts.stage } : null,
    lesson: known.lesson === null ? null : (own(board.day.lessons, known.lesson)?.name ?? null),
  };
}

/** What is to do on this prep at `now` (ms): before its lessons, or after them. */
export function openWork(board: Board, prep: Prep, now: number): readonly WorkStage[] {
  if (afterPrep(board, prep.horse, now) === prep) return openAfter(prep, board.barn.rules);
  return isOver(board.day, prep, now) ? [] : openStages(board.barn, prep);
}

/** What comes after lessons and is nobody's, for each who has time for it. */
export type GiveOut = {
  readonly volunteer: string;
  readonly name: string;
  readonly pieces: readonly string[];
  readonly horses: readonly string[];
};

/** Each horse's open stages go to whom the forecast sees doing them, at `now` (ms); by name. */
function afterGiveOut(board: Board, forecast: Forecast | null, now: number): GiveOut[] {
  const open = Object.values(board.day.preps).flatMap((prep) =>
    openWork(board, prep, now)
      .filter(isAfterStage)
      .flatMap((stage) => lanePiece(board, pieceId(prep.id, stage), forecast, now) ?? []),
  );
  const free = open.flatMap((piece) => (piece.couldDo ? { ...piece, to: piece.couldDo } : []));
  return [...Map.groupBy(free, ({ to }) => to.id)]
    .map(([volunteer, pieces]) => ({
      volunteer,
      name: personName(board, volunteer),
      pieces: pieces.map(({ id }) => id),
      horses: [...new Set(pieces.map(({ horseName }) => horseName))],
    }))
    .sort((a, b) => a.name.localeCompare(b.name, 'en'));
}

type Foreseen = { readonly pieces: readonly (PieceForecast | AfterPieceForecast)[] };

/** Null when the piece is finished or no longer wanted. */
export function lanePiece(
  board: Board,
  id: string,
  forecast: Forecast | null,
  now: number,
): LanePiece | null {
  const parts = pieceParts(id);
  const prep = parts ? own(board.day.preps, parts.prep) : undefined;
  const horse = prep ? own(board.barn.horses, prep.horse) : undefined;
  if (!parts || !prep || !horse || !openWork(board, prep, now).includes(parts.stage)) return null;
  const { stage } = parts;
  const foreseen: Foreseen | null | undefined =
    forecast && (isAfterStage(stage) ? own(forecast.after, prep.id) : own(forecast.preps, prep.id));
  const known = foreseen?.pieces.find((piece) => piece.id === id);
  const owner = ownerOf(board.day, id);
  const isAnothers = owner !== null && known !== undefined && known.by !== null && known.by !== owner;
  return {
    id,
    prep: prep.id,
    horse: horse.id,
    horseName: horse.name,
    stage: parts.stage,
    asks: asks(horse.experiencedFor, parts.stage),
    start: owner === null ? null : (known?.start ?? null),
    end: owner === null ? null : (known?.end ?? null),
    elsewhere: isAnothers && known.by !== null ? personName(board, known.by) : null,
    couldDo:
      owner === null && isAfterStage(stage) && known?.by
        ? { id: known.by, name: personName(board, known.by) }
        : null,
    neededBy: isAfterStage(stage) ? afterDue(board, prep, now)[stage] : (known?.neededBy ?? null),
    underWay: prep.onIt?.stage === parts.stage,
    // No lesson waits for what comes after one.
    lateMs: known?.end && !isAfterStage(stage) ? Math.max(0, known.end - known.neededBy) : 0,
  };
}
