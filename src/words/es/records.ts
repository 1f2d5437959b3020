/** Who and what the barn’s records hold. */
export const RECORDS_PAGE = 'Registros · Aisle Board';
