/** What is printed. */
export const PAPER_PAGE = 'Papel · Aisle Board';
