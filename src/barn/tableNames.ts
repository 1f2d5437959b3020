/** Names of the barn’s tables of records. */

export const BOOK_TABLES = ['pattern', 'planned', 'terms', 'exceptions', 'shifts'] as const;
export type BookTable = (typeof BOOK_TABLES)[number];

export const EMPTY_BOOK = {
  pattern: {},
  planned: {},
  terms: {},
  exceptions: {},
  shifts: {},
} satisfies Record<BookTable, object>;

export function isBookTable(table: string): table is BookTable {
  return BOOK_TABLES.some((one) => one === table);
}

export const TABLES = [
  'stalls',
  'horses',
  'volunteers',
  'staff',
  'riders',
  'arenas',
  'helmets',
  ...BOOK_TABLES,
] as const;
