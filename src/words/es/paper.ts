/** What is printed, and what is typed back from it. */
import type { Caution } from '../../barn/horse.ts';
import { counted } from './common.ts';

export const PAPER_PAGE = 'Papel · Aisle Board';

export const PAPER = {
  title: 'En papel',
  intro: 'Para cuando se va la luz: hojas para el pasillo con casillas, y una hoja por clase.',
  print: 'Imprimir',
  typeBack: 'Pasar al tablero lo marcado',
  preview: 'Hojas para imprimir',
  size: 'Papel',
  aisle: 'Pasillo',
  cautions: 'Qué tener en cuenta con cada caballo',
  printedAt: (time: string) => `Impreso ${time}`,
  page: (n: number, of: number) => `Hoja ${n} de ${of}`,
  ramp: 'Rampa',
  horse: 'Caballo',
  rider: 'Jinete',
  leader: 'Guía',
  sideWalkers: 'Acompañantes',
  tack: 'Equipo',
  findings: 'Visto',
  notes: 'Horas, observaciones y cambios a mano',
  by: (time: string) => `para ${time}`,
  standIn: (time: string) => `reemplazo: ${time}`,
  doneAt: (time: string) => `hecho ${time}`,
  done: 'hecho',
  mounted: 'Montado',
  off: 'Retirado',
  mind: 'cuidado: ver hoja',
  instructor: (name: string) => `Instruye ${name}`,
  stall: (name: string) => `Box ${name}`,
  usual:
    'Primero los cascos. Calor, cojera, herradura floja o perdida, hinchazón o herida: pare, deje el caballo donde esté seguro y avise al instructor. Deciden las reglas del centro, el instructor, el veterinario y el herrador.',
  tick: 'Marque cada casilla al terminar y escriba la hora al lado. «Reemplazo»: con los cascos revisados a esa hora aún alcanza para otro caballo.',
  nothing: 'Hoy no hay clases, así que no hay nada que imprimir.',
} as const;

export const PAPER_SIGNAL: Record<Caution['signal'], string> = {
  WARNING: 'ADVERTENCIA',
  CAUTION: 'PRECAUCIÓN',
  NOTICE: 'AVISO',
};

export const TYPED = {
  how: 'Escriba cada hora como 13:05 o 1305, en reloj de 24 horas, o x si solo está marcado. Enter baja, Tab va a la derecha.',
  who: 'Lo hizo',
  nobody: 'Sin nombre',
  cell: (stage: string, horse: string) => `${stage}, ${horse}`,
  whoFor: (horse: string) => `Lo hizo, ${horse}`,
  unclear: 'No es una hora',
  ahead: 'Esa hora no ha llegado',
  known: (time: string) => `tiene ${time}`,
  enter: (count: number) => `Anotar ${counted(count, 'etapa', 'etapas')}`,
  entered: (count: number) => `${counted(count, 'etapa anotada', 'etapas anotadas')}.`,
  findings: 'Lo que se vio en un caballo se anota en su ficha, como siempre.',
} as const;
