/** What is printed. */
export const PAPER_PAGE = 'Paper · Aisle Board';
