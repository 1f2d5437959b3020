/** Who and what the barn’s records hold. */
export const RECORDS_PAGE = 'Records · Aisle Board';
