/** Who and what the barn’s records hold. */
export const RECORDS_PAGE = 'Registros · Aisle Board';

export const RECORDS = {
  title: 'Registros',
  search: 'Buscar',
  add: 'Agregar',
  save: 'Guardar',
  saving: 'Guardando…',
  saved: 'Guardado.',
  discard: 'Descartar',
  retire: 'Retirar',
  retireSure: 'Retirarlo ahora',
  more: 'Mostrar más',
  none: 'Ninguno',
  choose: 'Elegir',
  addOne: 'Agregar uno',
  remove: 'Quitar',
  yes: 'Sí',
  no: 'No',
  back: 'Coordinación',
  nothing: 'Aquí no hay nada todavía.',
  stillUsed: 'Todavía lo necesita: ',
  inBook: 'Desde ahora vienen sin él: ',
  goneWith: 'Sin él no valen estos turnos y excepciones: ',
  choosePhoto: 'Elegir una foto',
  photoFailed: 'No se pudo guardar esa foto. Pruebe otra, o de nuevo cuando vuelva la central.',
  rules: 'Reglas del establo',
  reset: 'Valor inicial',
  source: 'Fuente del valor inicial: ',
  onePerLine: 'Uno por línea',
} as const;

export const RECORD_TABLE = {
  horses: 'Caballos',
  volunteers: 'Voluntarios',
  riders: 'Jinetes',
  staff: 'Personal',
  arenas: 'Pistas',
  stalls: 'Boxes',
  helmets: 'Cascos de montar',
  pattern: 'Clases semanales',
  planned: 'Clases sueltas',
  terms: 'Períodos',
  exceptions: 'Excepciones',
  shifts: 'Quién viene y cuándo',
} as const;

export const RECORD_FIELD = {
  name: 'Nombre',
  stall: 'Box',
  tackLists: 'Listas de equipo',
  weight: 'Peso del caballo',
  how: 'Pesado con',
  pony: 'Poni',
  condition: 'Condición corporal',
  loadLimit: 'Límite propio, jinete y equipo',
  experiencedFor: 'Pide una persona con experiencia',
  farrierOn: 'Último herrado o recorte',
  kit: 'Cepillos propios',
  cautions: 'Precauciones',
  notes: 'Notas',
  photo: 'Foto',
  clearances: 'Con autorización para',
  minor: 'Menor de edad',
  pace: 'Tiempo frente a la media del establo',
  callName: 'Nombre de uso',
  fullName: 'Nombre completo',
  riderWeight: 'Peso al montar',
  balanced: 'Monta en equilibrio',
  approvedHorses: 'Caballos aprobados',
  notWithHorses: 'No con',
  ownHelmet: 'Casco de montar propio, comprado el',
  knocked: 'Golpeado en una caída',
  needs: 'Necesidades',
  role: 'Función',
  metres: 'Desde el primer box',
  boughtOn: 'Comprado el',
  date: 'Fecha',
  firstDate: 'Primera fecha',
  lastDate: 'Última fecha',
  time: 'Empieza a las',
  minutes: 'Duración',
  arena: 'Pista',
  instructor: 'Instructor',
  places: 'Lugares',
  rider: 'Jinete',
  horse: 'Caballo',
  tack: 'Equipo',
  leader: 'Guía',
  sideWalkers: 'Acompañantes',
  what: 'Qué',
  lesson: 'Clase',
  insteadOf: 'Fecha en que sería',
  toDate: 'Nueva fecha',
  toTime: 'Nueva hora',
  why: 'Por qué',
  volunteer: 'Voluntario',
  comes: 'Viene',
  weekday: 'Día de la semana',
  term: 'Período',
  from: 'Desde',
  until: 'Hasta',
  items: 'Qué incluye',
  tackKg: 'Peso del equipo',
  signal: 'Gravedad',
  caution: 'Qué cuidar',
} as const;

export const RECORD_FOOT = {
  LF: 'Delantero izquierdo',
  LH: 'Trasero izquierdo',
  RF: 'Delantero derecho',
  RH: 'Trasero derecho',
} as const;
export const RECORD_SHOD = { barefoot: 'sin herrar', shod: 'herrado' } as const;
export const RECORD_HOW = { scale: 'báscula', tape: 'cinta' } as const;
export const RECORD_ROLE = { instructor: 'Instructor', coordinator: 'Coordinador' } as const;
export const RECORD_SIGNAL = { WARNING: 'Advertencia', CAUTION: 'Precaución', NOTICE: 'Aviso' } as const;
export const RECORD_WHAT = { closed: 'Cerrado', cancelled: 'Cancelada', moved: 'Cambiada' } as const;
export const RECORD_EVERY = { week: 'Cada semana', once: 'Una vez' } as const;
export const RECORD_WEEKDAY: readonly string[] = ['Lun', 'Mar', 'Mié', 'Jue', 'Vie', 'Sáb', 'Dom'];

export type RecordFault =
  'missing' | 'tooLong' | 'tooSmall' | 'tooLarge' | 'notSo' | 'endsBefore' | 'tooMany';

export function sayRecordFault(code: RecordFault, limit: number | null): string {
  switch (code) {
    case 'missing':
      return 'Complete este dato.';
    case 'tooLong':
      return `Demasiado largo: ${limit} letras como máximo.`;
    case 'tooSmall':
      return `Demasiado bajo: ${limit} como mínimo.`;
    case 'tooLarge':
      return `Demasiado alto: ${limit} como máximo.`;
    case 'tooMany':
      return `Son demasiados: ${limit} como máximo.`;
    case 'endsBefore':
      return 'Debe terminar después de empezar.';
    case 'notSo':
      return 'Esto no puede ser. Revíselo.';
  }
}

export const RECORDS_ERASE = {
  held: 'Todo lo que se guarda',
  heldWhat:
    'El registro, lo planeado y lo hecho. Es personal: guárdelo donde solo la persona y la coordinación lleguen a él.',
  asTable: 'Como tabla (CSV)',
  asJson: 'Tal como se guarda (JSON)',
  erase: 'Borrar',
  sure: 'Borrar para siempre',
  what: 'El registro se va ahora. Lo que se hizo queda contado, bajo un número que no lleva a nadie.',
  stays:
    'Lo que queda: las copias que usted haya hecho, y las carpetas apartadas al recuperar una copia (barn-until-…). Bórrelas a mano.',
} as const;

export const RECORDS_ERASED = {
  now: 'Borrado, también de todos los archivos de la central.',
  nextStart:
    'El registro ya no está. La central no pudo limpiar todos sus archivos; lo intenta otra vez cuando vuelva a arrancar.',
} as const;

export const RECORDS_NOT_ERASED = {
  otherName: 'Ese no es el nombre del registro.',
  onToday: 'Esta persona está en el tablero de hoy. Sáquela de hoy, o bórrela mañana.',
  lastCoordinator: 'La única persona de coordinación se queda. Nombre primero a otra.',
  unclearId:
    'El id de este registro es una palabra del propio tablero y no se puede limpiar con seguridad. No se cambió nada.',
  readOnly: 'La central no puede guardar nada en este momento. No se cambió nada.',
  noAnswer: 'La central no respondió. Mire si el registro sigue ahí.',
} as const;

export function sayTypeName(name: string): string {
  return `Para estar seguros, escriba el nombre: ${name}`;
}
