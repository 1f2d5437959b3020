/** What every screen says: of the link to the hub, stages, lengths of time. */
import type { Hold } from '../../barn/horse.ts';
import type { Clearance, WorkStage } from '../../barn/stage.ts';
import type { Readiness } from '../../day/views/words.ts';

export const STAGE_WORK: Record<WorkStage, string> = {
  feet: 'Cascos',
  coat: 'Cepillado',
  tack: 'Ensillado',
  untack: 'Desensillado',
  cool: 'Enfriado',
  look: 'Revisión',
  away: 'Al box',
};

/** What finishing a stage makes of the horse. */
export const STAGE_DONE: Record<WorkStage, string> = {
  feet: 'Cascos revisados',
  coat: 'Cepillado listo',
  tack: 'Ensillado listo',
  untack: 'Desensillado listo',
  cool: 'Ya está fresco',
  look: 'Revisado',
  away: 'Guardado en su box',
};

export const READINESS_WORD: Record<Readiness, string> = {
  ready: 'Listo',
  onTime: 'A tiempo',
  tight: 'Justo',
  late: 'Tarde',
  nobody: 'Sin nadie',
  noHorse: 'Sin caballo',
  pulled: 'Retirado',
};

/** A number with its noun: `counted(1, 'toque', 'toques')` is `1 toque`. */
export function counted(count: number, one: string, many: string): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** A length in words, from whole minutes: `4 min`, `2 h 5 min`, `3 días`. */
export function span(minutes: number): string {
  const size = Math.abs(minutes);
  if (size < 60) return `${size} min`;
  if (size < 24 * 60)
    return size % 60 === 0 ? `${Math.floor(size / 60)} h` : `${Math.floor(size / 60)} h ${size % 60} min`;
  return counted(Math.floor(size / (24 * 60)), 'día', 'días');
}

/** Minutes until something, negative once it is past. */
export function inMinutes(minutes: number): string {
  if (minutes === 0) return 'ahora';
  return minutes > 0 ? `en ${span(minutes)}` : `hace ${span(minutes)}`;
}

/** As `inMinutes`, for a tile: above the hour without the word for minutes. */
export function inMinutesShort(minutes: number): string {
  const size = Math.abs(minutes);
  if (size < 60 || size >= 24 * 60) return inMinutes(minutes);
  const long = `${Math.floor(size / 60)} h ${String(size % 60).padStart(2, '0')}`;
  return minutes > 0 ? `en ${long}` : `hace ${long}`;
}

export const HOLD_WORD: Record<Hold['kind'], string> = {
  today: 'descansa hoy',
  instructor: 'hasta que lo autorice un instructor',
  farrier: 'hasta que lo vea el herrador',
  vet: 'hasta que lo vea el veterinario',
};

export const CLEARANCE_WORD: Record<Clearance, string> = {
  feet: 'cascos',
  coat: 'cepillado',
  tack: 'ensillado',
  lead: 'guiar',
  'side-walk': 'acompañar al lado',
  experienced: 'con experiencia',
};

export const BOARD = {
  fault: 'Algo falló en este tablero.',
  mending: 'Algo falló en este tablero. Vuelve a empezar solo; los toques están guardados.',
  mended: (time: string) =>
    `Algo falló en este tablero a las ${time}. Volvió a empezar solo; los toques quedaron guardados.`,
  faultHint: 'Vuelve a empezar solo en unos segundos. Los toques hechos están guardados.',
  title: 'Aisle Board',
  loading: 'Buscando la central…',
  noHub: 'La central todavía no responde. Esta página sigue intentando.',
  noHubHint: 'Revise que la central esté encendida y que esta tableta esté en la red del establo.',
  awayNow: (at: string, minutes: number) =>
    `La central no responde. Así estaba todo a las ${at}, hace ${minutes === 0 ? 'un momento' : span(minutes)}.`,
  kept: (taps: number) =>
    taps === 0
      ? 'Los toques se guardan y se envían cuando vuelva.'
      : `${counted(taps, 'toque guardado, se envía', 'toques guardados, se envían')} cuando la central vuelva.`,
  notKept:
    'Este navegador no puede guardar toques si se recarga. Deje esta página abierta hasta que la central los tenga.',
  demo: 'Establo de muestra: caballos inventados, hora simulada.',
  startOwn: 'Empezar mi propio establo',
  dismiss: 'Cerrar',
  more: (count: number) => `${count} más`,
  undo: 'Deshacer',
  cancel: 'Ahora no',
  back: 'Volver',
  menu: 'Menú del tablero',
  noDay: 'Todavía no hay un día abierto.',
  noDayHint: 'La primera clase se agrega en coordinación.',
  forecastAge: (age: string) => `Pronóstico de hace ${age}`,
  noForecast: 'Todavía sin pronóstico',
} as const;

export const LINK = {
  unreadable:
    'La central dice algo que esta página no puede leer: puede ser más nueva. Esta página se carga de nuevo cuando nadie la toque por un minuto. Los toques se guardan.',
  held: (taps: number) => `${counted(taps, 'toque guardado', 'toques guardados')} aquí.`,
} as const;

/** The hub's clock was set by `byMs`. */
/** A tablet that a coordinator can unlock. */
export const LOCK = {
  unlockedBy: (name: string) => `Desbloqueada por ${name}`,
  lockNow: 'Bloquear ya',
  locked: 'Bloqueada: esta tableta muestra el pasillo.',
  unlock: 'Desbloquear',
  nobody: 'Nadie de la coordinación tiene PIN: no se puede desbloquear nada.',
  begin: 'Elegir uno',
} as const;
