/** The sheet of a day to come. */
export const SHEET_PAGE = 'Hoja del día · Aisle Board';
