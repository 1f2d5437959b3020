/** From the board to what the planner works on: open work with its times, and people with their clocks. */
import { own } from '../barn/basics.ts';
import type { Volunteer } from '../barn/people.ts';
import { asks, type Stage } from '../barn/stage.ts';
import { pieceId, type Board, type Hands, type Prep } from '../day/board.ts';
import {
  horseFreeFrom,
  isFinished,
  isOver,
  isWanted,
  lessonEnd,
  liveBookings,
  openStages,
  rampTime,
} from '../day/preps.ts';
import { MINUTE_MS } from '../time/units.ts';
import type { Piece, PlanInput, Work, Worker } from './model.ts';

/**
 * Somebody expected who has not come yet is counted on for this much after now, again and again, so that the forecast
 * worsens while everybody waits. Common practice, no source.
 */
const OVERDUE_ARRIVAL_MS = 10 * MINUTE_MS;

export function planInput(board: Board, now: number): PlanInput {
  return { now, works: works(board, now), workers: workers(board, now) };
}

function works(board: Board, now: number): Work[] {
  return Object.values(board.day.preps)
    .filter((prep) => isWanted(board.barn, prep) && !isOver(board.day, prep, now))
    .flatMap((prep) => work(board, prep) ?? []);
}

function work(board: Board, prep: Prep): Work | null {
  const { barn, day } = board;
  const ramp = rampTime(day, prep, barn.rules);
  const horse = own(barn.horses, prep.horse);
  if (ramp === null || !horse) return null;
  const piece = (stage: Stage): Piece => ({
    id: pieceId(prep.id, stage),
    prep: prep.id,
    stage,
    horse: prep.horse,
    asks: asks(horse.experiencedFor, stage),
    lengthMs: barn.rules.stageMinutes[stage] * MINUTE_MS,
    underWay: prep.onIt?.stage === stage ? { by: prep.onIt.by, since: prep.onIt.since } : null,
  });
  const { feet, coat, tack } = barn.rules.stageMinutes;
  const feetOpen = prep.kind === 'full' && !isFinished(prep, 'feet');
  return {
    prep: prep.id,
    horse: prep.horse,
    metres: own(barn.stalls, horse.stall)?.metres ?? 0,
    rampTime: ramp,
    feetBy: feetOpen ? ramp - (feet + coat + tack) * MINUTE_MS : null,
    freeFrom: horseFreeFrom(day, prep),
    pieces: openStages(barn, prep).map(piece),
  };
}

function workers(board: Board, now: number): Worker[] {
  return Object.entries(board.day.hands).flatMap(([id, hands]) => {
    const volunteer = own(board.barn.volunteers, id);
    const from = volunteer ? availableFrom(hands, now) : null;
    return volunteer && from !== null ? [worker(board, volunteer, hands, from)] : [];
  });
}

/** Null: cannot be counted on today. */
function availableFrom({ presence }: Hands, now: number): number | null {
  switch (presence.state) {
    case 'here':
      return now;
    case 'expected':
      if (presence.from === null) return null;
      return presence.from > now ? presence.from : now + OVERDUE_ARRIVAL_MS;
    case 'left':
    case 'notComing':
      return null;
  }
}

function worker(board: Board, volunteer: Volunteer, hands: Hands, from: number): Worker {
  return {
    id: volunteer.id,
    clearances: volunteer.clearances,
    pace: volunteer.private?.pace ?? 1,
    from,
    until: hands.presence.until,
    busy: lessonDuties(board, volunteer.id),
    queue: hands.queue,
  };
}

/** Leading and side-walking: from the ramp to the end of the lesson. Sorted by time. */
function lessonDuties({ barn, day }: Board, volunteer: string): Worker['busy'] {
  return liveBookings(day)
    .filter(({ place }) => place.leader === volunteer || place.sideWalkers.includes(volunteer))
    .map(({ lesson }) => ({
      from: lesson.start - barn.rules.mountingMinutes * MINUTE_MS,
      until: lessonEnd(lesson),
    }))
    .sort((a, b) => a.from - b.from);
}
