/** How sure a lesson is, in a word: people do not weigh tenths across an arena. */

/** From best to worst. */
export const CHANCE_WORDS = ['sure', 'likely', 'doubtful'] as const;
export type ChanceWord = (typeof CHANCE_WORDS)[number];

/** From this chance on a lesson is called so; below both it is doubtful. Common practice, no source. */
export const SURE_FROM = 0.95;
export const LIKELY_FROM = 0.75;

/** `chance` in [0, 1]. */
export function chanceWord(chance: number): ChanceWord {
  if (chance >= SURE_FROM) return 'sure';
  return chance >= LIKELY_FROM ? 'likely' : 'doubtful';
}
