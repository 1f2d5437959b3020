/** The day’s end. */
export const END_PAGE = 'Cierre del día · Aisle Board';
