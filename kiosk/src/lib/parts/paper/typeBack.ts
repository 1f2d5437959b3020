/** A grid of horses and stages as it is filled in from paper. */
import { WORK_STAGES, type WorkStage } from '#core/barn/stage.ts';
import type { Board, Prep } from '#core/day/board.ts';
import { stagesOf } from '#core/day/pieces.ts';
import type { WrittenStage } from '#core/day/ops.ts';
import { markOf, rampTime } from '#core/day/preps.ts';
import { readTyped, type Typed } from '#core/day/views/typed.ts';

export type GridRow = { readonly prep: Prep; readonly ramp: number };

/** By ramp time, as on the paper. */
export function gridRows({ barn, day }: Board): GridRow[] {
  return Object.values(day.preps)
    .flatMap((prep) => {
      const ramp = rampTime(day, prep, barn.rules);
      return ramp === null ? [] : [{ prep, ramp }];
    })
    .sort((a, b) => a.ramp - b.ramp || (a.prep.id < b.prep.id ? -1 : 1));
}

/** The stages a row asks for. */
export function gridStages({ barn }: Board, { prep }: GridRow): WorkStage[] {
  return WORK_STAGES.filter(
    (stage) =>
      stagesOf(prep).some((one) => one === stage) || barn.rules.afterStages.some((one) => one === stage),
  );
}

export function knownAt({ prep }: GridRow, stage: WorkStage): number | null {
  const mark = markOf(prep, stage);
  return mark && !mark.untimed ? mark.at : null;
}

/** What a cell says; a time after `now` (barn time, ms) has not come yet. */
export function readCell(board: Board, text: string, now: number): Typed | { readonly kind: 'ahead' } {
  const typed = readTyped(text, board.day.date ?? '', board.barn.zone);
  return typed.kind === 'time' && typed.at > now ? { kind: 'ahead' } : typed;
}

export const cellKey = (prep: string, stage: WorkStage): string => `${prep}:${stage}`;

/** What is filled in so far; null while a cell is not clear. */
export function written(
  board: Board,
  cells: Readonly<Record<string, string>>,
  people: Readonly<Record<string, string>>,
  now: number,
): WrittenStage[] | null {
  const done: WrittenStage[] = [];
  for (const row of gridRows(board)) {
    for (const stage of gridStages(board, row)) {
      const typed = readCell(board, cells[cellKey(row.prep.id, stage)] ?? '', now);
      if (typed.kind === 'unclear' || typed.kind === 'ahead') return null;
      if (typed.kind === 'nothing') continue;
      const by = people[row.prep.id] || null;
      done.push({ prep: row.prep.id, stage, at: typed.kind === 'time' ? typed.at : null, by });
    }
  }
  return done;
}
