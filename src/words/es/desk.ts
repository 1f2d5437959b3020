/** The coordinator: people, work, horses, lessons, what if, what to take back. */
import type { Presence } from '../../day/board.ts';
import type { TileStatus } from '../../day/views/aisle.ts';
import type { HeldUp } from '../../day/views/coordinator.ts';
import { STAGE_WORK, span } from './common.ts';

export const COORDINATOR_PAGE = 'Coordinación · Aisle Board';

export const DESK = {
  hands: 'Personas',
  horses: 'Caballos',
  lessons: 'Clases',
  recent: 'Deshacer',
  tablets: 'Tabletas',
  now: 'ahora',
  nobodys: 'Trabajo de nadie',
  nobodysNone: 'Todo el trabajo que falta lo tiene alguien.',
  behind: (span: string) => `${span} de atraso`,
  because: (stage: string, horse: string) => `${stage} de ${horse}`,
  inTime: (time: string) => `termina ${time}, a tiempo`,
  nothingGiven: 'sin trabajo',
  leading: (lesson: string) => `en ${lesson}`,
  noHands: 'Todavía no hay nadie en la lista de hoy.',
  someoneElse: 'Llegó alguien más',
  whoElse: '¿Quién llegó?',
  arrived: 'Ya llegó',
  left: 'Se fue',
  notComing: 'No viene',
  clearedFor: (what: string) =>
    what === '' ? 'Todavía sin ninguna autorización' : `Con autorización para ${what}`,
  work: 'Trabajo, en orden',
  noWork: 'No tiene trabajo pendiente.',
  move: (what: string) => `Pasar: ${what}`,
  moved: (what: string, horse: string, to: string) => `${what} · ${horse} → ${to}`,
  moveTo: '¿Quién lo toma?',
  only: (stage: string) => `Solo ${stage.toLowerCase()}`,
  allOf: (horse: string) => `Todo lo que falta de ${horse}`,
  toNobody: 'Nadie, por ahora',
  asking: 'Calculando qué pasaría…',
  noAnswer: 'La central no responde. Puede hacerlo igual; el efecto se verá cuando la central vuelva.',
  noChange: 'A nadie le cambia la hora en un minuto o más.',
  before: 'Antes',
  after: 'Después',
  horseSpare: 'Caballo listo',
  handsBehind: 'Personas con atraso',
  spareOf: (minutes: number) =>
    minutes < 0 ? `${span(minutes)} tarde` : minutes === 0 ? 'justo a tiempo' : `sobran ${span(minutes)}`,
  unknownSpare: 'no se sabe',
  gone: 'ya no hace falta',
  behindOf: (minutes: number) => (minutes === 0 ? 'a tiempo' : `${span(minutes)} de atraso`),
  lateHorses: (before: number, after: number) => `Caballos tarde: ${before} → ${after}`,
  doIt: 'Hacerlo',
  dont: 'Dejarlo así',
  done: 'Hecho.',
} as const;

export const STATUS: Record<TileStatus, string> = {
  notStarted: 'Sin empezar',
  feetChecked: 'Cascos revisados',
  coatReady: 'Cepillado',
  tacked: 'Ensillado',
  pulled: 'Retirado',
  ridden: 'De vuelta de su clase',
  untacked: 'Sin equipo',
  cooled: 'Enfriado',
  lookedOver: 'Revisado',
  putAway: 'Guardado',
  inLesson: 'En la clase',
  free: 'Sin más clases',
};

export const PRESENCE_WORD: Record<Presence['state'], string> = {
  here: 'presente',
  expected: 'por llegar',
  left: 'se fue',
  notComing: 'no viene',
};

export const HORSES = {
  pull: 'Retirar del trabajo',
  pulling: (name: string) => `Retirar a ${name} del trabajo`,
  release: 'Autorizar para trabajar',
  releasing: (name: string) => `Autorizar a ${name} para trabajar`,
  why: '¿Por qué?',
  whys: [
    'Herradura perdida o floja',
    'Cojea',
    'Pata caliente o hinchada',
    'Llaga en el dorso o la cinchera',
    'Hoy no está como siempre',
  ],
  until: '¿Hasta cuándo?',
  who: '¿Quién decide?',
  noStaff: 'Todavía no hay nadie del personal en los registros del establo. Primero agréguese en Agregar.',
  word: '¿Qué dijo el veterinario o el herrador?',
  wordNeeded: 'Espera al veterinario o al herrador: hace falta lo que digan.',
  caution: 'El tablero solo guarda la decisión. Si hay señales para el veterinario o el herrador, llámelos.',
  standsIn: 'Otro caballo para sus lugares',
  noPlaces: 'Hoy no tiene lugar en ninguna clase.',
  choose: '¿Qué caballo en su lugar?',
  noHorse: 'Sin caballo por ahora',
  tackOf: (name: string) => `con ${name}`,
  fits: 'Si un caballo sirve para un jinete lo dice el instructor.',
} as const;

export const LESSONS = {
  none: 'Todavía no hay clases hoy.',
  start: 'Empieza',
  length: 'Duración',
  minutes: (minutes: number) => `${minutes} min`,
  earlier: '5 min antes',
  later: '5 min después',
  shorter: '5 min menos',
  longer: '5 min más',
  cancel: 'Cancelar la clase',
  cancelled: 'cancelada',
  places: 'Lugares',
  cancelPlace: 'El jinete no viene',
  otherHorse: 'Otro caballo',
  look: 'Ver qué pasa',
  over: 'terminó',
  rider: (name: string | null) => name ?? 'jinete sin nombre',
  moved: (name: string, time: string) => `${name} empieza a las ${time}`,
  shortened: (name: string, minutes: number) => `${name} dura ${minutes} min`,
  cancelledOne: (name: string) => `${name} se cancela`,
  placeCancelled: (horse: string, name: string) => `${horse} no hace falta en ${name}`,
  horseChanged: (horse: string, name: string) => `${horse} va en ${name}`,
} as const;

export const RECENT = {
  none: 'No hay nada que deshacer.',
  hint: 'Lo último que se hizo, primero lo más reciente. Lo que alguien cambió después no se puede deshacer.',
  takeBack: 'Deshacer',
  blocked: 'cambió después',
  finished: (what: string, horse: string) => `${what}: ${horse}`,
  started: (stage: string, horse: string, by: string) => `${by}: ${stage.toLowerCase()} de ${horse}`,
  presence: (name: string, state: string) => `${name}: ${state}`,
  moved: (pieces: string) => `Trabajo pasado: ${pieces}`,
  pulled: (name: string) => `${name}, retirado`,
  released: (name: string) => `${name}, autorizado`,
  lesson: (name: string) => `Clase cambiada: ${name}`,
  lessonAdded: (name: string) => `Clase agregada: ${name}`,
  finding: (name: string) => `Observación de ${name}`,
  ticked: (horse: string) => `Equipo marcado: ${horse}`,
  other: 'Otra cosa',
} as const;

export const TABLETS = {
  hint: 'Abra una de estas en otra tableta de la red del establo, o apunte su cámara al código.',
  none: 'La central no ha dicho en qué dirección está.',
} as const;

export const LANE = {
  /** `espera a Ben: Cepillado de Fern`, `espera la clase Primera`. */
  waits: ({ by, piece, lesson }: HeldUp): string => {
    if (lesson !== null) return `espera la clase ${lesson}`;
    const what = piece ? `${STAGE_WORK[piece.stage]} de ${piece.horseName}` : '';
    if (by === null) return what === '' ? 'detenido' : `espera ${what}`;
    return what === '' ? `espera a ${by}` : `espera a ${by}: ${what}`;
  },
  heldUp: (minutes: number) => `detenido ${span(minutes)}`,
  behindSince: (time: string) => `con atraso desde las ${time}`,
  elsewhere: (name: string) => `se espera que lo haga ${name}`,
} as const;

export const SUGGEST = {
  region: 'Sugerencia',
  look: 'Ver',
  notNow: 'Ahora no',
  provenBest: 'No hay nada mejor: lo haga quien lo haga, ningún caballo estaría listo antes donde importa.',
  noBetterFound: 'No se encontró un cambio mejor. Puede haberlo.',
  others: (count: number) => `${count} más para ver`,
  old: (age: string) => `calculado hace ${age}`,
  title: '¿Pasar trabajo?',
  givesOut: 'Trabajo de nadie',
  option: (moves: number) => (moves === 1 ? '1 cambio' : `${moves} cambios`),
  moves: 'Qué cambiaría',
  only: 'Solo esto',
  acceptAll: (moves: number) => (moves === 1 ? 'Hacerlo' : `Hacer los ${moves}`),
  lessons: 'Clase lista',
  people: 'Trabajo terminado',
  proven: 'Ningún otro plan tiene listo antes al último caballo.',
  gone: 'Las cosas cambiaron: esto ya no vale.',
  ready: (time: string, spareMinutes: number): string =>
    spareMinutes < 0 ? `${time}, ${span(spareMinutes)} tarde` : `${time}, sobran ${span(spareMinutes)}`,
  done: (time: string, lateMinutes: number): string =>
    lateMinutes <= 0 ? time : `${time}, ${span(lateMinutes)} tarde`,
  nothing: 'nada que hacer',
  unknown: 'no se sabe',
} as const;

export const WHAT_IF = {
  panel: 'Qué pasa si',
  hint: 'Vea primero qué pasaría. No se hace nada hasta que usted lo diga.',
  leaves: 'Alguien se va antes o después',
  leavesAt: 'Se va a las',
  leavingAt: (time: string) => `se va a las ${time}`,
  earlier: '15 min antes',
  later: '15 min después',
  until: (name: string, time: string) => `${name} se va a las ${time}`,
  who: '¿Quién?',
  moves: 'Una clase cambia de hora',
  which: '¿Qué clase?',
  cancels: 'Un jinete cancela',
  whichPlace: '¿Qué lugar?',
  noOne: 'No hay nadie presente ni esperado.',
  noLesson: 'No queda ninguna clase.',
} as const;
