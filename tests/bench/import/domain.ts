/** From text to records, and into the board, without page, hub or disk. */
import type { Board } from '#core/day/board.ts';
import { emptyBoard } from '#core/day/emptyBoard.ts';
import { evolve } from '#core/day/evolve.ts';
import { NO_ANSWERS, previewTable } from '#core/exchange/csv/preview.ts';
import { TABLES } from './tables.ts';

export type DomainFigure = {
  readonly what: string;
  readonly rows: number;
  readonly readMs: number;
  readonly takeMs: number;
  readonly problems: number;
};

export function throughTheDomain(): DomainFigure[] {
  let board: Board = emptyBoard('Barn', 'America/Denver');
  let id = 0;
  return TABLES.map(({ what, rows, text }) => {
    const started = performance.now();
    const { put, problems } = previewTable(text, board.barn, NO_ANSWERS, () => `new${(id += 1)}`);
    const read = performance.now();
    const fact = { kind: 'recordsImported' as const, name: what, put: [...put], gone: [] };
    const at = Date.UTC(2026, 4, 11);
    const entry = { seq: id, at, id: what, device: 'bench', by: null, tappedAt: at, why: null };
    board = evolve(board, { ...entry, facts: [fact] });
    const ms = (from: number, to: number): number => Math.round((to - from) * 10) / 10;
    return {
      what,
      rows,
      readMs: ms(started, read),
      takeMs: ms(read, performance.now()),
      problems: problems.length,
    };
  });
}
