/** Letting a tablet into the barn. */
export const PAIR_PAGE = 'Pair a tablet · Aisle Board';
