/** Why a lesson was moved or cancelled; a choice, because free words would hang on the wall. */
export const CHANGE_REASONS = ['weather', 'running-late', 'horses', 'people', 'riders', 'other'] as const;
