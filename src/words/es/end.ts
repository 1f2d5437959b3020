/** The day’s end. */
import type { AlertKind } from '../../day/alerts/alert.ts';
import type { OnTime } from '../../ledger/lessons.ts';
import { counted } from './common.ts';

export const END_PAGE = 'Cierre del día · Aisle Board';

export const END = {
  title: 'Cierre del día',
  day: 'Día',
  week: 'Semana',
  month: 'Mes',
  term: 'Período',
  from: 'Desde',
  until: 'Hasta',
  print: 'Imprimir',
  csv: 'Archivo CSV',
  csvOf: (table: string) => `Archivo CSV: ${table}`,
  loading: 'Sumando…',
  failed: 'La central no pudo sumarlo ahora. Intente de nuevo.',
  nothing: 'No hay registro de estas fechas.',
  damaged: (files: string) => `Fuera de estas cifras, porque no se pueden leer: ${files}.`,
  oldRules: (dates: string) => `Según las reglas de hoy, pues no se guardaron las suyas: ${dates}.`,
  summary: (days: number, lessons: number, onTime: number, late: number, unknown: number) =>
    `${counted(days, 'día', 'días')}: de ${counted(lessons, 'clase dada', 'clases dadas')}, ${onTime} a tiempo, ${late} tarde, ${unknown} sin saber.`,
  alerts: (count: number, anHour: string, worst: number) =>
    `${counted(count, 'aviso', 'avisos')} en los tableros: ${anHour} por hora, ${worst} en la peor hora.`,
  alertsMean: (anHour: number, worst: number) =>
    `Quien no hace otra cosa puede atender unas ${anHour} por hora, y ${worst} en la peor (EEMUA 191). En un establo conviene quedar muy por debajo.`,
  alertsFlood: (count: number) => `${count} en diez minutos: más de lo que alguien puede atender.`,
  spare: 'Margen al terminar cada etapa',
  spareNote:
    'Minutos que faltaban para la hora límite, según los minutos de etapa del centro; bajo cero: tarde.',
  load: 'Minutos en la pista por caballo',
  busiest: 'El día más largo de cada caballo, minutos en la pista',
  limit: (minutes: number) => `Línea cortada: el límite del centro, ${minutes} min al día.`,
  noLimit: 'Las reglas del centro no ponen límite.',
  held: { day: 'Clases dadas, día por día', week: 'Clases dadas, semana por semana' },
  lateDark: 'Oscuro: de ellas, tarde.',
  hours: { day: 'Horas de voluntarios, día por día', week: 'Horas de voluntarios, semana por semana' },
  correct: 'Corregir',
  who: 'Voluntario',
  stay: 'Llegada y salida',
  newStay: 'Una que nadie marcó',
  why: 'Por qué',
  save: 'Agregar la corrección',
  saved: 'Agregada. Lo marcado queda al lado.',
  by: 'Su nombre',
  wasDone: '¿Se hizo?',
  no: 'no',
  doneAt: 'Hecho a las',
  doneBy: 'Hecho por',
  began: 'Jinetes arriba a las',
  ended: 'Jinetes abajo a las',
  rideMinutes: 'Montado, min',
  notDone: 'no se hizo',
  notHeld: 'no se dio',
  fromPaper: (count: number) => counted(count, 'etapa del papel', 'etapas del papel'),
  close: (time: string) => `contado hasta ${time}`,
  unknown: 'no se sabe',
  yes: 'sí',
  tapped: (from: string, until: string) => `marcado ${from}–${until}`,
} as const;

/** What is put right. */
export const END_CORRECT = {
  stay: 'Llegada o salida',
  stage: 'Una etapa',
  lesson: 'Una clase',
  ride: 'El trabajo de un caballo',
  paper: 'Marcas del papel',
} as const;

export const END_TABLE = {
  horses: 'Caballos',
  people: 'Voluntarios',
  stays: 'Llegadas y salidas',
  lessons: 'Clases a tiempo',
  stages: 'Tiempos de etapa, de toque a toque',
  findings: 'Observaciones',
  holds: 'Retirados y autorizados',
  after: 'Después de las clases',
  changes: 'Cambios',
  calls: 'Pedidos de ayuda por hora',
  alerts: 'Avisos por hora',
  spare: 'Margen',
  overTime: 'A lo largo del tiempo',
  corrections: 'Correcciones',
} as const;

export const END_HEAD = {
  recorded: 'Según el registro',
  date: 'Fecha',
  time: 'Hora',
  horse: 'Caballo',
  lessons: 'Clases',
  lessonMinutes: 'En clases, min',
  waitingMinutes: 'Esperando, min',
  days: 'Días',
  week: 'Días en 7',
  over: 'Sobre el límite',
  person: 'Voluntario',
  minutes: 'Presente, min',
  open: 'Sin hora de salida',
  leading: 'Guiando, min',
  walking: 'Acompañando, min',
  stages: 'Etapas',
  from: 'Llegó',
  until: 'Salió',
  note: 'Nota',
  lesson: 'Clase',
  start: 'Inicio',
  ramp: 'Hora de rampa',
  ready: 'Listo',
  late: 'Tarde, min',
  verdict: '¿A tiempo?',
  stage: 'Etapa',
  count: 'Veces',
  mean: 'Media, min',
  shortest: 'Menor, min',
  longest: 'Mayor, min',
  what: 'Qué',
  by: 'Por',
  read: 'Leído por',
  off: 'Retirado',
  released: 'Autorizado',
  about: 'Sobre',
  takenBack: 'Deshecho',
  spare: 'Margen, min',
  since: 'Desde',
  lateLessons: 'Tarde',
  arena: 'Caballos en la pista, min',
  people: 'Voluntarios, h',
} as const;

export const END_ALERT: Record<AlertKind, string> = {
  notDone: 'toques rechazados',
  callNow: 'observaciones: llamar ya',
  hand: 'ayuda',
  unsure: 'dudas',
  notKept: 'la central no puede escribir',
  offToday: 'observaciones: sin trabajo',
  away: 'central ausente',
  feetBy: 'cascos sin revisar',
  openRole: 'puesto libre',
  behind: 'con atraso',
  wait: 'observaciones: esperar',
  carryOn: 'observaciones: avisar',
  damage: 'central reparada',
  answered: 'respondidas',
};

export function endOnTime(verdict: OnTime): string {
  switch (verdict.kind) {
    case 'onTime':
      return 'a tiempo';
    case 'late':
      return `${Math.ceil(verdict.lateMs / 60_000)} min tarde`;
    case 'unknown':
      return `no se sabe de ${counted(verdict.horses, 'caballo', 'caballos')}`;
    case 'cancelled':
      return 'cancelada';
    case 'toCome':
      return 'por venir';
    case 'noHorses':
      return 'sin caballos';
  }
}

const OVER: Readonly<Record<string, (limit: number) => string>> = {
  'minutes-per-day': (limit) => `más de ${limit} min al día`,
  'minutes-in-a-row': (limit) => `más de ${limit} min seguidos`,
  'lessons-per-day': (limit) => `más de ${limit} clases al día`,
  'days-in-a-row': (limit) => `más de ${limit} días seguidos`,
  'days-per-week': (limit) => `más de ${limit} días por semana`,
};
export const endOver = (code: string, limit: number): string => OVER[code]?.(limit) ?? code;

const CHANGE: Readonly<Record<string, string>> = {
  horsePulled: 'retirado',
  horseReleased: 'autorizado',
  horseIsolated: 'apartado',
  isolationEnded: 'ya no apartado',
  farrierCame: 'vino el herrador',
  conditionScored: 'condición anotada',
  standInsTaken: 'reemplazos elegidos',
  volunteerExpected: 'horario dado',
  volunteerNotComing: 'no viene',
  workMoved: 'trabajo pasado',
  lessonAdded: 'clase agregada',
  lessonMoved: 'clase movida',
  lessonsMoved: 'clases movidas',
  lessonShortened: 'duración cambiada',
  lessonCancelled: 'clase cancelada',
  lessonsCancelled: 'clases canceladas',
  lessonPlanned: 'clase planificada',
  placesPlanned: 'lugares planificados',
  placeCancelled: 'lugar cancelado',
  placeHorseChanged: 'otro caballo',
  rolesChanged: 'puestos cambiados',
  recordSaved: 'registro guardado',
  recordRetired: 'registro retirado',
  ruleSet: 'regla cambiada',
  rulesChanged: 'reglas cambiadas',
  barnNamed: 'nombre del establo',
  planTaken: 'plan semanal tomado',
  undone: 'deshecho',
};
export const endChange = (kind: string): string => CHANGE[kind] ?? kind;
