/** The arena door. */
import type { ChanceWord } from '../../day/views/chance.ts';

export const DOOR_PAGE = 'Puerta de la pista · Aisle Board';

export const DOOR = {
  toRamp: 'min para la rampa',
  hoursToRamp: 'horas para la rampa',
  rampAt: (time: string, until: string) => `Rampa ${time}, ${until}`,
  starts: (time: string) => `Empieza a las ${time}`,
  next: 'Después',
  ready: (time: string) => `listo ${time}`,
  wasReady: (time: string) => `desde ${time}`,
  unknown: 'no se sabe',
  none: 'No hay más clases hoy',
  noneHere: 'No hay más clases hoy en esta pista',
  with: (name: string) => `con ${name}`,
  readyOf: (ready: number, all: number) => `${ready} de ${all} listos`,
} as const;

/** With when the last horse is predicted ready. */
export const CHANCE_WORD: Record<ChanceWord, string> = {
  sure: 'Seguro',
  likely: 'Probable',
  doubtful: 'Dudoso',
};

export const DOOR_PLAN = {
  chance: (word: ChanceWord, ready: string | null) =>
    ready === null ? CHANCE_WORD[word] : `${CHANCE_WORD[word]}: todos listos ${ready}`,
  past: 'min tarde para la rampa',
  hoursPast: 'horas tarde para la rampa',
  toStart: 'min para empezar',
  hoursToStart: 'horas para empezar',
} as const;
