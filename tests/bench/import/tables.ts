/** Tables of a barn larger than any known: 200 horses, 500 people and 2,000 lessons of a month. All invented. */
const HORSES = 200;
const PEOPLE = 500;
const LESSONS = 2000;

export type BenchTable = { readonly what: string; readonly rows: number; readonly text: string };

const two = (n: number): string => String(n).padStart(2, '0');

/** In the order in which they have to come in. */
export const TABLES: readonly BenchTable[] = [
  table(
    'horses',
    'horse,stall,weight (kg),shod feet,tack lists',
    HORSES,
    (i) => `Horse ${i},${i},${400 + (i % 200)},front,English: pad | saddle | girth`,
  ),
  table(
    'people',
    'volunteer,cleared for,usual hours',
    PEOPLE,
    (i) => `Person ${i},feet; coat; tack,Mon 09:00-12:00`,
  ),
  table(
    'lessons',
    'date,start,minutes,lesson,horse,leader',
    LESSONS,
    (i) =>
      `2026-06-${two((i % 30) + 1)},${two(8 + (i % 10))}:00,45,Lesson ${i},Horse ${i % HORSES},Person ${i % PEOPLE}`,
  ),
];

function table(what: string, headings: string, rows: number, row: (i: number) => string): BenchTable {
  const text = [headings, ...Array.from({ length: rows }, (_, i) => row(i))].join('\r\n');
  return { what, rows, text };
}
