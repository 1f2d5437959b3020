/** The work after lessons that the planner fits in: horses through with theirs now, and those that will be. */
import { own } from '../../barn/basics.ts';
import { asks } from '../../barn/stage.ts';
import type { AfterStage } from '../../barn/stage.ts';
import { afterDue, afterPrep, openAfter, throughSince } from '../../day/after.ts';
import type { Board, OnIt, Prep } from '../../day/board.ts';
import { pieceId } from '../../day/pieces.ts';
import { isOver, isWanted, lessonsOf, rampTime } from '../../day/preps.ts';
import { MINUTE_MS } from '../../time/units.ts';
import type { AfterPiece, AfterWork } from '../model.ts';

/** Work after a lesson that has run past its usual time is taken to need this much more. Common practice, no source. */
const AT_LEAST_LEFT_MS = MINUTE_MS;

/** Of every horse, at barn time `now` (ms). A horse that goes on to a change of tack is not put away before it. */
export function afterWorks(board: Board, now: number): AfterWork[] {
  const byHorse = Map.groupBy(Object.values(board.day.preps), ({ horse }) => horse);
  return [...byHorse].flatMap(([horse, preps]) => {
    if (!own(board.barn.horses, horse)) return [];
    const through = afterPrep(board, horse, now);
    const open = through ? openAfter(through, board.barn.rules) : [];
    const first = through && open.length > 0 ? [work(board, through, open, now)] : [];
    return [...first, ...toCome(board, preps, through, now)];
  });
}

/** Preps whose lessons are not over; the horse has its tack on by then. */
function toCome(board: Board, preps: readonly Prep[], through: Prep | null, now: number): AfterWork[] {
  const { barn, day } = board;
  const coming = preps
    .filter((prep) => prep !== through && isWanted(barn, prep) && !isOver(day, prep, now))
    .sort((a, b) => (rampTime(day, a, barn.rules) ?? 0) - (rampTime(day, b, barn.rules) ?? 0));
  return coming
    .filter((_, i) => coming[i + 1]?.kind !== 'tackChange')
    .map((prep) => work(board, prep, barn.rules.afterStages, now));
}

function work(board: Board, prep: Prep, stages: readonly AfterStage[], now: number): AfterWork {
  const { barn, day } = board;
  const due = afterDue(board, prep, now);
  const last = lessonsOf(day, prep).at(-1);
  const experiencedFor = own(barn.horses, prep.horse)?.experiencedFor ?? [];
  return {
    prep: prep.id,
    horse: prep.horse,
    from: Math.max(now, throughSince(board, prep, now)),
    ledBy: last?.places.find((place) => place.horse === prep.horse && !place.cancelled)?.leader ?? null,
    pieces: stages.map((stage): AfterPiece => {
      const on = prep.onIt?.stage === stage ? prep.onIt : null;
      return {
        id: pieceId(prep.id, stage),
        stage,
        asks: asks(experiencedFor, stage),
        lengthMs: barn.rules.afterMinutes[stage] * MINUTE_MS,
        dueBy: due[stage],
        underWay: on && { by: on.by, since: on.since, until: onAfterUntil(board, on, stage, now) },
      };
    }),
  };
}

/** Until when somebody is likely on a stage after the lessons, at `now`; ms. */
export function onAfterUntil({ barn }: Board, onIt: OnIt, stage: AfterStage, now: number): number {
  const pace = own(barn.volunteers, onIt.by)?.private?.pace ?? 1;
  const takes = barn.rules.afterMinutes[stage] * MINUTE_MS * pace;
  return Math.round(Math.max(onIt.since + takes, now + AT_LEAST_LEFT_MS));
}
