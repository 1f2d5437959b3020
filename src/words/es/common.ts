/** What every screen says: of the link to the hub and of the hub itself, reasons, stages, lengths of time. */
import type { Hold } from '../../barn/horse.ts';
import type { Clearance, WorkStage } from '../../barn/stage.ts';
import type { Readiness } from '../../day/views/words.ts';
import type { Unplanned } from '../../plan/model.ts';
import type { REFUSALS, Status } from '../../wire/messages.ts';

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

export const UNPLANNED: Record<Unplanned, string> = {
  nobodyHere: 'Todavía no hay nadie',
  nobodyCleared: 'Nadie de los presentes está autorizado',
  nobodyFree: 'Nadie tiene tiempo antes de irse',
  badLength: 'El tablero no puede decir cuánto tarda: revise los minutos por etapa del establo',
};

/* What the link to the hub says */

export const HUB_SAYS: Record<(typeof REFUSALS)[number], string> = {
  malformed: 'La central no pudo leer lo que envió esta tableta. Recargue esta página.',
  helloFirst: 'La central no conocía esta tableta. Se está presentando otra vez.',
  otherVersion: 'La central tiene un tablero más nuevo. Esta página se recarga cuando nadie la use.',
  notAllowedHere: 'Esta tableta no puede hacer eso. Pregunte en coordinación.',
  notADemo: 'Este establo ya es el suyo.',
  tooMuch: 'Esta tableta envió más de lo que la central recibe de una vez. Enviará el resto después.',
  readOnly: 'La central no puede anotar nada por ahora. Los toques se guardan aquí y se envían cuando pueda.',
  notPaired: 'La central no conoce esta tableta. Pida un código de vinculación a quien coordina.',
};

/** What the hub says of itself on every board: what is so, and what to do. */
export const HUB_STATUS = {
  readOnly: {
    full: 'El disco de la central está lleno y no puede anotar nada. Los toques se guardan en cada tableta. Pida a quien cuida la central que haga lugar.',
    writeProtected:
      'El disco de la central solo se puede leer y no se puede anotar nada. Los toques se guardan en cada tableta. Avise a quien cuida la central.',
    failing:
      'El disco de la central falla y no se puede anotar nada. Los toques se guardan en cada tableta. Avise pronto a quien cuida la central.',
  },
  tornTail:
    'La central se apagó mientras anotaba. Pueden faltar los últimos toques: mire las fichas de los caballos.',
  clockAhead: (by: string) =>
    `El reloj de la central se adelantó ${by}, y con él todas las cuentas de tiempo.`,
  clockBack: (by: string) => `El reloj de la central se atrasó ${by}, y con él todas las cuentas de tiempo.`,
} as const;

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
  fault: 'Este tablero tropezó.',
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
  demo: 'Establo de muestra: caballos inventados, hora de mentira.',
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

/** Shortest span said, in minutes: a clock that was set by seconds is not worth a zero. */
const LEAST_MINUTES = 1;

/** The hub's clock was set by `byMs`. */
export function clockJumped({ byMs }: NonNullable<Status['clockJump']>): string {
  const by = span(Math.max(LEAST_MINUTES, Math.round(Math.abs(byMs) / 60_000)));
  return byMs > 0 ? HUB_STATUS.clockAhead(by) : HUB_STATUS.clockBack(by);
}

/** A tablet that a coordinator can unlock. */
export const LOCK = {
  unlockedBy: (name: string) => `Desbloqueada por ${name}`,
  lockNow: 'Bloquear ya',
  locked: 'Bloqueada: esta tableta muestra el pasillo.',
  unlock: 'Desbloquear',
  nobody: 'Nadie de la coordinación tiene PIN: no se puede desbloquear nada.',
  begin: 'Elegir uno',
  menu: 'Desbloquear para coordinar',
  notDone:
    'Eso solo lo puede hacer la coordinación, y esta tableta ya estaba bloqueada cuando la central lo supo: no se hizo. Desbloquéela y toque de nuevo.',
} as const;

export const MENU = {
  sheet: 'Hoja del día',
  add: 'Agregar a hoy',
  records: 'Registros',
  files: 'Archivos',
  paper: 'Papel',
  end: 'Cierre del día',
  byStall: 'Por box',
  byUrgency: 'Lo más urgente primero',
  changePlace: 'Cambiar lo que muestra esta tableta',
  glass: 'Medir esta pantalla',
  theme: 'Claro u oscuro',
  themes: { clock: 'Oscuro de noche', day: 'Siempre claro', night: 'Siempre oscuro' },
  language: 'Idioma',
  fullScreen: 'Ocupar toda la pantalla',
  languageLater:
    'El idioma cambia la próxima vez que se cargue esta página. La central no responde por ahora.',
} as const;
