/** The board as somebody standing in the aisle takes it in: which work is open, whose it is, who is due in a lesson. */
import { own } from '#core/barn/basics.ts';
import { asks, type Clearance, type Stage } from '#core/barn/stage.ts';
import type { Board, Prep } from '#core/day/board.ts';
import { pieceId, stagesOf } from '#core/day/pieces.ts';
import { horseFreeFrom, isFinished, isWanted, lessonEnd, liveBookings, rampTime } from '#core/day/preps.ts';
import { isCountedOn } from '#core/day/presence.ts';
import { MINUTE_MS } from '#core/time/units.ts';

export type OpenPrep = {
  readonly prep: Prep;
  /** Stages still to do, in order; at least one. */
  readonly open: readonly Stage[];
  /** What the first of them asks for. */
  readonly asks: readonly Clearance[];
} & Timing;

/** When a horse may be worked on and must be done, ms, and where it stands, metres from the aisle's first stall. */
type Timing = {
  readonly rampTime: number;
  readonly freeFrom: number;
  readonly overAt: number;
  readonly metres: number;
};

/** A part in a lesson, from the ramp to its end; `horse` is the one led or walked beside. */
export type Duty = { readonly from: number; readonly until: number; readonly horse: string | null };

export type Scene = {
  readonly board: Board;
  /** Wanted preps with work left, by ramp time. */
  readonly open: readonly OpenPrep[];
  readonly ownerOf: ReadonlyMap<string, string>;
  readonly dutiesOf: (volunteer: string) => readonly Duty[];
};

type Timetable = {
  readonly lessons: Board['day']['lessons'];
  readonly rules: Board['barn']['rules'];
  readonly timing: ReadonlyMap<string, Timing>;
  readonly duties: ReadonlyMap<string, readonly Duty[]>;
};

/** Reads boards one after the other; what has not changed since the last is not worked out again. */
export function sceneReader(): (board: Board) => Scene {
  let table: Timetable | null = null;
  let last: Scene | null = null;
  return (board) => {
    if (last?.board === board) return last;
    if (table?.lessons !== board.day.lessons || table.rules !== board.barn.rules) table = timetable(board);
    last = scene(board, table);
    return last;
  };
}

function scene(board: Board, { timing, duties }: Timetable): Scene {
  const open = Object.values(board.day.preps)
    .flatMap((prep) => openPrep(board, prep, timing.get(prep.id)) ?? [])
    .sort((a, b) => a.rampTime - b.rampTime);
  const ownerOf = new Map<string, string>();
  for (const [id, hands] of Object.entries(board.day.hands)) {
    for (const piece of hands.queue) ownerOf.set(piece, id);
  }
  return { board, open, ownerOf, dutiesOf: (volunteer) => duties.get(volunteer) ?? [] };
}

function openPrep({ barn }: Board, prep: Prep, timing: Timing | undefined): OpenPrep | null {
  const horse = own(barn.horses, prep.horse);
  if (!horse || !timing || !isWanted(barn, prep)) return null;
  const open = stagesOf(prep).filter((stage) => !isFinished(prep, stage));
  const [next] = open;
  return next ? { prep, open, asks: asks(horse.experiencedFor, next), ...timing } : null;
}

function timetable(board: Board): Timetable {
  const { barn, day } = board;
  const bookings = liveBookings(day);
  const timing = new Map<string, Timing>();
  for (const prep of Object.values(day.preps)) {
    const ramp = rampTime(day, prep, barn.rules);
    if (ramp === null) continue;
    const served = prep.places.flatMap((ref) => own(day.lessons, ref.lesson) ?? []);
    timing.set(prep.id, {
      rampTime: ramp,
      freeFrom: horseFreeFrom(day, prep) ?? 0,
      overAt: Math.max(...served.map(lessonEnd)),
      metres: own(barn.stalls, own(barn.horses, prep.horse)?.stall ?? '')?.metres ?? 0,
    });
  }
  const duties = new Map<string, Duty[]>();
  for (const { lesson, place } of bookings) {
    const duty = {
      from: lesson.start - barn.rules.mountingMinutes * MINUTE_MS,
      until: lessonEnd(lesson),
      horse: place.horse,
    };
    for (const id of [...(place.leader === null ? [] : [place.leader]), ...place.sideWalkers]) {
      duties.set(id, [...(duties.get(id) ?? []), duty]);
    }
  }
  return { lessons: day.lessons, rules: barn.rules, timing, duties };
}

/** Who the next stage of this prep is given to; null: nobody who can still be counted on. */
export function doerOf({ board, ownerOf }: Scene, prep: Prep, stage: Stage): string | null {
  const owner = ownerOf.get(pieceId(prep.id, stage));
  const presence = owner === undefined ? undefined : own(board.day.hands, owner)?.presence;
  return owner !== undefined && presence && isCountedOn(presence) ? owner : null;
}
