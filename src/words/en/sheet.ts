/** The sheet of a day to come. */
export const SHEET_PAGE = 'Day sheet · Aisle Board';
