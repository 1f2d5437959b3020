/** Files as they come broken: each problem is one sentence with row and column (or line), and nothing of the file is taken. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { previewCalendar } from '#core/exchange/calendar/preview.ts';
import { NO_ANSWERS, previewTable } from '#core/exchange/csv/preview.ts';
import { sayProblem } from '#core/words/en/exchange.ts';
import { sayProblem as sayProblemSpanish } from '#core/words/es/exchange.ts';
import { smallBoard } from '../../properties/day-arbitraries.ts';
import said from './broken/said.json' with { type: 'json' };

const FOLDER = join(import.meta.dirname, 'broken');
const { barn } = smallBoard();
let last = 0;
const id = (): string => `new${(last += 1)}`;

const look = (file: string): ReturnType<typeof previewTable> | ReturnType<typeof previewCalendar> => {
  const text = readFileSync(join(FOLDER, file), 'utf8');
  return file.endsWith('.ics')
    ? previewCalendar(text, barn, '2026-04-01', file.includes('shift') ? 'shifts' : 'lessons', id)
    : previewTable(text, barn, NO_ANSWERS, id);
};

test.each(said)('$file', ({ file, said: sentences }) => {
  const { problems, put } = look(file);
  expect(problems.map(sayProblem)).toEqual(sentences);
  expect(put).toEqual([]);
  // The same place in the other language.
  for (const [i, problem] of problems.entries()) {
    const numbers = (text: string): string[] =>
      (text.split(':')[0] ?? '').match(/\d+|(?<!\p{L})[A-Z]{1,2}(?!\p{L})/gu) ?? [];
    expect(numbers(sayProblemSpanish(problem))).toEqual(numbers(sentences[i] ?? ''));
  }
});

test('every file of the folder is in the list', () => {
  const files = readdirSync(FOLDER).filter((name) => name !== 'said.json');
  expect(files.sort()).toEqual(said.map(({ file }) => file).sort());
  expect(files.length).toBeGreaterThanOrEqual(30);
});
