/** What of a place is checked after tacking: girth and stirrups by a second person, and the instructor's own check. */
export const PLACE_CHECKS = ['girth', 'instructor'] as const;
