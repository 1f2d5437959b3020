/** The aisle: tiles, what a tap leads to, a horse’s details. */
import type { Caution } from '../../barn/horse.ts';
import type { TileStage } from '../../day/views/aisle.ts';

export const AISLE_PAGE = 'Pasillo · Aisle Board';

export const AISLE = {
  stall: (name: string) => `Box ${name}`,
  ramp: 'Rampa',
  by: (time: string) => `para las ${time}`,
  due: (time: string) => `era para las ${time}`,
  neededBy: (time: string) => `hace falta para las ${time}`,
  feetBy: (time: string) => `para las ${time}, así queda tiempo para un reemplazo`,
  onIt: (name: string) => `${name} está en eso`,
  since: (time: string) => `desde las ${time}`,
  given: (name: string) => `para ${name}`,
  givenNobody: 'nadie todavía',
  nobody: 'Nadie',
  tackedBy: (name: string) => `ensilló ${name}`,
  takeIt: 'Voy yo',
  done: (what: string, name: string | null) => (name === null ? what : `${what} · ${name}`),
  readyAt: (time: string) => `listo a las ${time}`,
  inLesson: (name: string, until: string) => `${name} hasta las ${until}`,
  tackedAt: 'Listo para la rampa',
  sure: (from: string, until: string) => `Ocho de cada diez veces listo entre las ${from} y las ${until}`,
  free: 'No hay más clases hoy',
  pulledAsk: 'No lo prepare. Pregunte al instructor.',
  pending: 'guardado aquí',
  details: (name: string) => `${name}: más`,
  more: 'Más',
  who: (what: string, horse: string) => `${what}: ${horse}. ¿Quién lo hizo?`,
  whoTakes: (horse: string) => `${horse}: ¿quién se encarga?`,
  without: 'Sin nombre',
  notCleared: 'sin autorización',
  itsTheirs: 'le toca',
  nobodyHere: 'Todavía no hay nadie anotado como presente. Primero toque su nombre.',
  imHere: 'Ya llegué',
  imHereWho: '¿Quién llegó?',
  allHere: 'Ya están todos los esperados.',
  notMeHint: '¿No es usted? Toque.',
  page: (page: number, pages: number) => `${page} de ${pages}`,
  earlier: 'Atrás',
  later: 'Más caballos',
  noHorses: 'No hay ningún caballo en estos boxes.',
  several: 'Terminar varias a la vez',
  severalHint: 'Toque lo que está hecho y después quién lo hizo.',
  finishChosen: 'Hecho',
  tack: 'Equipo',
  notes: 'Notas',
  cautions: 'Cuidado',
  held: (kind: string) => `Retirado: ${kind}`,
  advice:
    'El tablero aconseja; una persona decide. Por la salud de un caballo, pregunte al instructor, al veterinario o al herrador.',
} as const;

export const SIGNAL_WORD: Record<Caution['signal'], string> = {
  WARNING: 'Advertencia',
  CAUTION: 'Precaución',
  NOTICE: 'Aviso',
};

export const STAGE_STATE: Record<TileStage['state'], string> = {
  done: 'hecho',
  underWay: 'en curso',
  next: 'sigue',
  open: 'falta',
};

export const EXTRAS = {
  yes: 'Hay tiempo para crines y cola',
  ask: '¿Hay tiempo para crines y cola?',
  answer: (yes: boolean) => (yes ? 'sí' : 'no'),
} as const;

export const HOW = {
  how: (work: string) => `¿Cómo? ${work}`,
  cannot: 'Los pasos no se pueden traer ahora. Pregunte a alguien antes de empezar.',
} as const;

/** What each page of help is about, as on the button that opens it. */
export const HELP_TITLE = {
  fetch: 'Traer y atar',
  feet: 'Cascos',
  coat: 'Cepillado',
  extras: 'Extras si hay tiempo',
  tack: 'Ensillado',
  girth: 'Revisar la cincha',
  untack: 'Desensillado',
  cool: 'Enfriado',
  look: 'Revisar todo',
  away: 'Guardar el caballo',
} as const;
