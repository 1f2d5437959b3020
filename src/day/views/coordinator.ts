/** What the coordinator shows: each person's work against its needed-by times, who is behind first, and nobody's work. */
import { own } from '../../barn/basics.ts';
import { asks, type Clearance, type Stage } from '../../barn/stage.ts';
import type { Forecast, PieceForecast } from '../../plan/model.ts';
import { pieceParts, type Board, type Presence } from '../board.ts';
import { isPulled, lessonEnd, liveBookings, openStages } from '../preps.ts';
import { ownerOf } from './aisle.ts';

export type LanePiece = {
  readonly id: string;
  readonly prep: string;
  readonly horse: string;
  readonly horseName: string;
  readonly stage: Stage;
  readonly asks: readonly Clearance[];
  readonly start: number | null;
  readonly end: number | null;
  readonly neededBy: number | null;
  readonly underWay: boolean;
  /** Predicted to end after its needed-by time, in ms; 0: in time or unknown. */
  readonly lateMs: number;
};

export type Lane = {
  readonly volunteer: string;
  readonly name: string;
  readonly clearances: readonly Clearance[];
  readonly presence: Presence;
  readonly behindMs: number;
  readonly because: string | null;
  readonly doneAt: number | null;
  readonly pieces: readonly LanePiece[];
  /** Lessons they lead or side-walk in. */
  readonly duties: readonly { readonly lesson: string; readonly from: number; readonly until: number }[];
};

export type CoordinatorView = {
  /** People with a part in today, behind first, then by who is here, then by name. */
  readonly lanes: readonly Lane[];
  /** Open work in nobody's queue, or given to somebody who is not coming or has left. */
  readonly nobodys: readonly LanePiece[];
  readonly pulled: readonly { readonly horse: string; readonly name: string; readonly why: string }[];
};

const PRESENCE_ORDER: Record<Presence['state'], number> = { here: 0, expected: 1, left: 2, notComing: 3 };

export function coordinatorView(board: Board, forecast: Forecast | null): CoordinatorView {
  const { barn, day } = board;
  const lanes = Object.entries(day.hands)
    .flatMap(([id]) => lane(board, id, forecast) ?? [])
    .sort(
      (a, b) =>
        b.behindMs - a.behindMs ||
        PRESENCE_ORDER[a.presence.state] - PRESENCE_ORDER[b.presence.state] ||
        a.name.localeCompare(b.name, 'en'),
    );
  const held = new Set(
    lanes.filter((one) => isCountedOn(one.presence)).flatMap((one) => one.pieces.map((piece) => piece.id)),
  );
  const open = Object.values(day.preps).flatMap((prep) =>
    openStages(barn, prep).map((stage) => `${prep.id}:${stage}`),
  );
  return {
    lanes,
    nobodys: open.filter((id) => !held.has(id)).flatMap((id) => lanePiece(board, id, forecast) ?? []),
    pulled: Object.values(barn.horses)
      .filter((horse) => isPulled(barn, horse.id))
      .map((horse) => ({ horse: horse.id, name: horse.name, why: horse.holds.at(-1)?.why ?? '' })),
  };
}

function isCountedOn(presence: Presence): boolean {
  return presence.state === 'here' || presence.state === 'expected';
}

function lane(board: Board, id: string, forecast: Forecast | null): Lane | null {
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
    doneAt: known?.doneAt ?? null,
    pieces: hands.queue.flatMap((piece) => lanePiece(board, piece, forecast) ?? []),
    duties: liveBookings(board.day)
      .filter(({ place }) => place.leader === id || place.sideWalkers.includes(id))
      .map(({ lesson }) => ({ lesson: lesson.name, from: lesson.start, until: lessonEnd(lesson) })),
  };
}

/** Null when the piece is finished or no longer wanted. */
export function lanePiece(board: Board, id: string, forecast: Forecast | null): LanePiece | null {
  const parts = pieceParts(id);
  const prep = parts ? own(board.day.preps, parts.prep) : undefined;
  const horse = prep ? own(board.barn.horses, prep.horse) : undefined;
  if (!parts || !prep || !horse || !openStages(board.barn, prep).includes(parts.stage)) return null;
  const known: PieceForecast | undefined = forecast
    ? own(forecast.preps, prep.id)?.pieces.find((piece) => piece.id === id)
    : undefined;
  const mine = known?.by === ownerOf(board, id);
  return {
    id,
    prep: prep.id,
    horse: horse.id,
    horseName: horse.name,
    stage: parts.stage,
    asks: asks(horse.experiencedFor, parts.stage),
    // A time somebody else is predicted for says nothing about this person's queue.
    start: mine ? (known?.start ?? null) : null,
    end: mine ? (known?.end ?? null) : null,
    neededBy: known?.neededBy ?? null,
    underWay: prep.onIt?.stage === parts.stage,
    lateMs: known?.end ? Math.max(0, known.end - known.neededBy) : 0,
  };
}
