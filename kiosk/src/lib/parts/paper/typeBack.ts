/** A grid of horses and stages as it is filled in from paper. */
import type { WorkStage } from '#core/barn/stage.ts';
import type { WrittenStage } from '#core/day/ops.ts';
import { readTyped, type Typed } from '#core/day/views/typed.ts';
import type { PrepRecord } from '#core/ledger/account.ts';

/** Cells of one op. */
export const MOST_WRITTEN = 200;

/** A row a preparation of `date` (ISO 8601). `now`: barn time, ms. */
export type Paper = {
  readonly rows: readonly PrepRecord[];
  readonly date: string;
  readonly zone: string;
  readonly now: number;
};

export function knownAt({ stages }: PrepRecord, stage: WorkStage): number | null {
  return stages.find((one) => one.stage === stage)?.at ?? null;
}

/** What a cell says; a time after now has not come yet. */
export function readCell({ date, zone, now }: Paper, text: string): Typed | { readonly kind: 'ahead' } {
  const typed = readTyped(text, date, zone);
  return typed.kind === 'time' && typed.at > now ? { kind: 'ahead' } : typed;
}

export const cellKey = (prep: string, stage: WorkStage): string => `${prep}:${stage}`;

/** What is filled in so far; null while a cell is not clear. */
export function written(
  paper: Paper,
  cells: Readonly<Record<string, string>>,
  people: Readonly<Record<string, string>>,
): WrittenStage[] | null {
  const done: WrittenStage[] = [];
  for (const { prep, stages } of paper.rows) {
    for (const { stage } of stages) {
      const typed = readCell(paper, cells[cellKey(prep, stage)] ?? '');
      if (typed.kind === 'unclear' || typed.kind === 'ahead') return null;
      if (typed.kind === 'nothing') continue;
      done.push({ prep, stage, at: typed.kind === 'time' ? typed.at : null, by: people[prep] || null });
    }
  }
  return done;
}
