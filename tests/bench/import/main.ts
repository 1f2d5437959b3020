/** How long tables of 200 horses, 500 people and 2,000 lessons take, from text to records and into the board. */
import type { Board } from '#core/day/board.ts';
import { emptyBoard } from '#core/day/emptyBoard.ts';
import { evolve } from '#core/day/evolve.ts';
import { NO_ANSWERS, previewTable } from '#core/exchange/csv/preview.ts';

const HORSES = 200;
const PEOPLE = 500;
const LESSONS = 2000;

/** `--json` is the only way it speaks. */
export async function main(): Promise<number> {
  const tables: readonly (readonly [string, number, string])[] = [
    [
      'horses',
      HORSES,
      table(
        'horse,stall,weight (kg),shod feet,tack lists',
        HORSES,
        (i) => `Horse ${i},${i},${400 + (i % 200)},front,English: pad | saddle | girth`,
      ),
    ],
    [
      'people',
      PEOPLE,
      table(
        'volunteer,cleared for,usual hours',
        PEOPLE,
        (i) => `Person ${i},feet; coat; tack,Mon 09:00-12:00`,
      ),
    ],
    [
      'lessons',
      LESSONS,
      table(
        'date,start,minutes,lesson,horse,leader',
        LESSONS,
        (i) =>
          `2026-06-${String((i % 30) + 1).padStart(2, '0')},${String(8 + (i % 10)).padStart(2, '0')}:00,45,Lesson ${i},Horse ${i % HORSES},Person ${i % PEOPLE}`,
      ),
    ],
  ];
  let board: Board = emptyBoard('Barn', 'America/Denver');
  let id = 0;
  const figures: { what: string; rows: number; readMs: number; takeMs: number; problems: number }[] = [];
  for (const [what, rows, text] of tables) {
    const started = performance.now();
    const { put, problems } = previewTable(text, board.barn, NO_ANSWERS, () => `new${(id += 1)}`);
    const read = performance.now();
    const fact = { kind: 'recordsImported' as const, name: what, put: [...put], gone: [] };
    const at = Date.UTC(2026, 4, 11);
    board = evolve(board, {
      seq: id,
      at,
      id: what,
      device: 'bench',
      by: null,
      tappedAt: at,
      facts: [fact],
      why: null,
    });
    const ms = (from: number, to: number): number => Math.round((to - from) * 10) / 10;
    figures.push({
      what,
      rows,
      readMs: ms(started, read),
      takeMs: ms(read, performance.now()),
      problems: problems.length,
    });
  }
  console.log(JSON.stringify({ import: figures }, null, 2));
  return figures.some(({ problems }) => problems > 0) ? 1 : 0;
}

function table(headings: string, rows: number, row: (i: number) => string): string {
  return [headings, ...Array.from({ length: rows }, (_, i) => row(i))].join('\r\n');
}
