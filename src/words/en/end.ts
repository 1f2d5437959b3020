/** The day’s end. */
export const END_PAGE = 'Day’s end · Aisle Board';
