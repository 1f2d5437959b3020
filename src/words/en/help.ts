/** Step by step help for each stage. */
export const HELP_PAGE = 'Help · Aisle Board';
