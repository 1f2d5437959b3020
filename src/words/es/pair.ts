/** Letting a tablet into the barn. */
export const PAIR_PAGE = 'Vincular una tableta · Aisle Board';
