/** Tables and calendars in and out. */
export const EXCHANGE_PAGE = 'Importar · Aisle Board';
