/** The arena door. */
import type { ChanceWord } from '../../day/views/chance.ts';

export const DOOR_PAGE = 'Arena door · Aisle Board';

export const DOOR = {
  toRamp: 'min to the ramp',
  hoursToRamp: 'hours to the ramp',
  rampAt: (time: string, until: string) => `Ramp ${time}, ${until}`,
  starts: (time: string) => `Starts ${time}`,
  next: 'Then',
  ready: (time: string) => `ready ${time}`,
  wasReady: (time: string) => `since ${time}`,
  unknown: 'cannot be said',
  none: 'No more lessons today',
  noneHere: 'No more lessons in this arena today',
  with: (name: string) => `with ${name}`,
  readyOf: (ready: number, all: number) => `${ready} of ${all} ready`,
} as const;

/** With when the last horse is predicted ready. */
export const CHANCE_WORD: Record<ChanceWord, string> = {
  sure: 'Sure',
  likely: 'Likely',
  doubtful: 'Doubtful',
};

export const DOOR_PLAN = {
  chance: (word: ChanceWord, ready: string | null) =>
    ready === null ? CHANCE_WORD[word] : `${CHANCE_WORD[word]}: all ready ${ready}`,
  past: 'min late for the ramp',
  hoursPast: 'hours late for the ramp',
  toStart: 'min to the start',
  hoursToStart: 'hours to the start',
} as const;
