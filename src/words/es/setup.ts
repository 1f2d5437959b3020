/** Where a tablet hangs and what it can do there. */
import { counted } from './common.ts';

export const HANGING = {
  question: '¿Dónde está colgada esta tableta?',
  hint: 'La tableta lo recuerda. Puede cambiarlo después en el menú del tablero.',
  aisle: 'Pasillo',
  aisleHint: 'Junto a los boxes: qué caballo, qué sigue, hecho.',
  door: 'Puerta de la pista',
  doorHint: 'Se lee desde la pista: ¿estarán listos todos los caballos?',
  coordinator: 'Coordinación',
  coordinatorHint: 'En la mano: quién va atrasado, quién puede ayudar.',
  allStalls: 'Todos los boxes',
  chosenStalls: (count: number) => counted(count, 'box', 'boxes'),
  whichStalls: '¿Qué boxes?',
  anyArena: 'Todas las pistas',
  whichArena: '¿Qué pista?',
  howFar: '¿A qué distancia se para la gente?',
  metres: (metres: number) => `${metres} m`,
  nearer: 'Más cerca',
  farther: 'Más lejos',
  showsBoth: (metres: number) =>
    `Desde ${metres} m se leen en esta pantalla los minutos de la próxima clase y su palabra.`,
  showsMinutes: (metres: number, both: string, inches: number) =>
    `Desde ${metres} m esta pantalla muestra los minutos de una clase. Para leer también su palabra, acérquese a menos de ${both} m o cuelgue una pantalla de al menos ${inches} pulgadas.`,
  showsNothing: (metres: number, minutes: string, inches: number) =>
    `Desde ${metres} m no se lee nada en esta pantalla. Acérquese a menos de ${minutes} m o cuelgue una pantalla de al menos ${inches} pulgadas.`,
  done: 'Colgarla aquí',
  name: 'Nombre de esta tableta',
  refused: 'La central no lo aceptó. Pida que alguien de la coordinación desbloquee antes esta tableta.',
} as const;

/** What a tablet can do where it is, and what it lacks: said where somebody sets it up. */
export const TABLET_CAN = {
  title: 'Lo que puede esta tableta',
  reload: 'Abre con el último tablero, y dice de cuándo es, aunque la central no responda.',
  awake: 'Mantiene su pantalla encendida sola.',
  full: 'Puede ocupar toda la pantalla: «Ocupar toda la pantalla» en el menú del tablero.',
  keeping: 'Guarda los toques hasta que la central los tenga, también si se apaga.',
} as const;

export const TABLET_LACKS = {
  reload:
    'En esta dirección no puede abrir el tablero si la central no responde. Deje esta página abierta y no la recargue: así sigue y guarda los toques.',
  notYet: 'Abrirá sin la central desde la próxima visita.',
  full: 'No puede ocupar toda la pantalla con un toque. Añada el tablero a la pantalla de inicio o use el modo quiosco de la tableta.',
  awake:
    'Aquí no puede mantener encendida su pantalla. Ponga en la tableta que la pantalla no se apague nunca.',
  keeping:
    'Este navegador no guarda los toques si se recarga. Los que se hagan sin la central se pierden si se cierra la página.',
} as const;

/** How fine this tablet's glass is, and what can be read on it from where. */
export const GLASS = {
  title: 'Medir esta pantalla',
  why: 'Para que los botones sirvan con guantes y las palabras se lean desde lejos. Una vez por tableta.',
  card: 'Ponga una tarjeta bancaria sobre el contorno. Cambie su tamaño hasta que la tarjeta lo cubra justo.',
  muchSmaller: 'Mucho más chico',
  smaller: 'Más chico',
  larger: 'Más grande',
  muchLarger: 'Mucho más grande',
  keep: 'La tarjeta coincide',
  kept: 'Guardado en esta tableta.',
  notYet: 'Sin medir: el tablero supone una pantalla común.',
  check: 'Compruebe con una cinta métrica',
  checkHint: 'Cada barra mide de largo, y cada letra de alto, lo que dice al lado.',
  bar: (mm: number) => `${mm} mm`,
  letter: (mm: string, metres: number, arcMinutes: string) =>
    `${mm} mm: para ${metres} m (${arcMinutes} minutos de arco)`,
  done: 'Volver al tablero',
} as const;

export const GLASS_PAGE = 'Medir esta pantalla · Aisle Board';
