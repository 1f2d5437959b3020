/** Step by step help for each stage. */
export const HELP_PAGE = 'Ayuda · Aisle Board';
