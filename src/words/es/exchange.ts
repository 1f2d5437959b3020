/** Tables and calendars, in and out. */
import type { Table } from '../../barn/barn.ts';
import type { CalendarOf } from '../../exchange/calendar/preview.ts';
import type { Kind } from '../../exchange/csv/columns.ts';
import type { Count } from '../../exchange/gathered.ts';
import { columnLetters, type At, type NamedTable, type Problem, type What } from '../../exchange/problem.ts';
import { counted } from './common.ts';

export const EXCHANGE_PAGE = 'Importar · Aisle Board';

export const EXCHANGE = {
  title: 'Archivos: traer y llevar',
  back: 'Coordinación',
  choose: 'Elegir un archivo',
  drop: 'o suéltelo aquí: una tabla (CSV) o un calendario (ICS).',
  hint: 'Nada se toma hasta que usted haya visto lo que resulta. Un archivo nunca borra nada.',
  reading: 'Leyendo…',
  sending: 'Guardando…',
  another: 'Otro archivo',
  take: 'Tomarlo',
  nothingNew: 'Todo lo que trae ya está en los registros.',
  taken: 'Guardado.',
  takeBack: 'Deshacer',
  takenBack: 'Deshecho. Los registros están como antes de este archivo.',
  changedMeanwhile: 'Los registros han cambiado entretanto. Esto es lo que resulta ahora del archivo.',
  columns: 'Columnas reconocidas',
  unused: 'Se dejan fuera, porque ningún encabezado aquí significa eso: ',
  problems: 'Así como está no se puede tomar nada',
  asksKind: '¿Qué hay en esta tabla?',
  asksOf: '¿Qué hay en este calendario?',
  downloads: 'Como tabla, para una hoja de cálculo',
  downloadsHint: 'Contiene pesos y necesidades de los jinetes: guárdela como guarda los registros.',
  headings: 'Encabezados que este tablero lee',
  neededHeading: 'no puede faltar',
  old: 'Estas letras se leyeron como Windows-1252. Si los nombres se ven mal, guarde el archivo como UTF-8.',
  toSheet: 'Hoja del día',
} as const;

export const EXCHANGE_DATE_ORDER = {
  dmy: 'Primero va el día',
  mdy: 'Primero va el mes',
} as const;

export const EXCHANGE_UNIT = { kg: 'Kilogramos', lb: 'Libras' } as const;

export function askDateOrder(column: string, example: string): string {
  return `«${example}» en la columna «${column}» puede ser dos fechas. ¿Cuál es?`;
}

export function askWeightUnit(column: string, example: string): string {
  return `«${example}» en la columna «${column}»: ¿en qué unidad?`;
}

export function sayFileIs(of: string, rows: number): string {
  return `${of}, ${counted(rows, 'fila', 'filas')}`;
}

export function sayCalendarIs(of: string, events: number): string {
  return `${of}, ${counted(events, 'evento', 'eventos')}`;
}

export function sayCount({ fresh, changed, same }: Count): string {
  return `${counted(fresh, 'nuevo', 'nuevos')}, ${counted(changed, 'cambiado', 'cambiados')}, ${same} sin cambio`;
}

export function sayReading(done: number, of: number): string {
  return `Leyendo: ${done} de ${of}`;
}

export function sayTakeToday(lessons: number): string {
  return `Poner ${counted(lessons, 'clase', 'clases')} de hoy en el tablero`;
}

export function sayMoreProblems(count: number): string {
  return `y ${count} más`;
}

export const EXCHANGE_FAILED = {
  notText: 'No es un archivo de texto. Guárdelo como CSV en la hoja de cálculo e inténtelo de nuevo.',
  tooLarge: 'Este archivo pasa de 16 MB. Divídalo en varios archivos.',
  tooLong: 'Es más de lo que la central toma de una vez (8 MB). Divida el archivo.',
  thread: 'Este archivo no se pudo leer. Elíjalo otra vez.',
  noAnswer: 'La central no respondió. Mire los registros antes de intentarlo de nuevo.',
  malformed: 'La central no aceptó este archivo. No se guardó nada.',
  readOnly: 'La central no puede guardar nada en este momento. No se tomó nada. Inténtelo más tarde.',
} as const;

export const EXCHANGE_KIND: Record<Kind | CalendarOf, string> = {
  horses: 'Caballos',
  volunteers: 'Voluntarios',
  riders: 'Jinetes',
  lessons: 'Clases',
  shifts: 'Turnos',
};

export const EXCHANGE_TABLE: Partial<Record<Table, string>> = {
  stalls: 'Boxes',
  horses: 'Caballos',
  volunteers: 'Voluntarios',
  staff: 'Instructores',
  riders: 'Jinetes',
  arenas: 'Pistas',
  pattern: 'Clases semanales',
  planned: 'Clases sueltas',
  terms: 'Períodos',
  exceptions: 'Excepciones',
  shifts: 'Turnos',
};

const ONE_OF: Record<NamedTable, string> = {
  stalls: 'ningún box',
  horses: 'ningún caballo',
  volunteers: 'ningún voluntario',
  staff: 'ningún instructor',
  riders: 'ningún jinete',
  arenas: 'ninguna pista',
};

function sayAt(at: At): string {
  switch (at.in) {
    case 'cell': {
      const letters = columnLetters(at.column);
      return at.title === ''
        ? `Fila ${at.row}, columna ${letters}`
        : `Fila ${at.row}, columna ${letters} (${at.title})`;
    }
    case 'row':
      return `Fila ${at.row}`;
    case 'line':
      return at.name === '' ? `Línea ${at.line}` : `Línea ${at.line} (${at.name})`;
    case 'file':
      return 'Este archivo';
  }
}

function sayWhat(what: What): string {
  switch (what.code) {
    case 'empty':
      return 'está vacío.';
    case 'notText':
      return 'no es un archivo de texto. Guárdelo como CSV en la hoja de cálculo e inténtelo de nuevo.';
    case 'tooLong':
      return `tiene más de ${what.most} filas o líneas. Divídalo en varios archivos.`;
    case 'notRecognised':
      return 'estos encabezados no son de ninguna tabla que este tablero conozca. Vea abajo los encabezados.';
    case 'columnMissing':
      return `falta la columna «${what.title}».`;
    case 'nothingInIt':
      return 'no hay nada que tomar.';
    case 'quoteOpen':
      return 'se abre una comilla que no se cierra.';
    case 'quoteInside':
      return 'hay algo después de una comilla de cierre. Dentro de una celda, una comilla se escribe dos veces.';
    case 'tooManyCells':
      return `hay ${what.cells} celdas, pero solo ${what.columns} encabezados.`;
    case 'columnTwice':
      return `es la segunda columna para «${what.title}». Quite una de ellas.`;
    case 'needed':
      return 'no debe estar vacía.';
    case 'tooManySigns':
      return `tiene más de ${what.most} letras.`;
    case 'notNumber':
      return `«${what.text}» no es un número que esta columna admita.`;
    case 'thousandsOrDecimal':
      return `«${what.text}» se puede leer de dos maneras. Escríbalo sin signo de millares.`;
    case 'outside':
      return `${what.text} no está entre ${what.low} y ${what.high}.`;
    case 'notYesNo':
      return `«${what.text}» no es ni sí ni no.`;
    case 'notDate':
      return `«${what.text}» no es una fecha. Mejor escríbala así: 2026-03-29.`;
    case 'notTime':
      return `«${what.text}» no es una hora. Mejor escríbala así: 14:30.`;
    case 'notOneOf':
      return what.of.length === 0
        ? `«${what.text}» no se conoce aquí.`
        : `«${what.text}» no es ninguno de: ${what.of.join(', ')}.`;
    case 'notHours':
      return `«${what.text}» no es un día de la semana con dos horas, como Lun 09:00-12:00.`;
    case 'badId':
      return `«${what.text}» no puede ser un id: hasta 32 letras, cifras, - y _.`;
    case 'idElsewhere':
      return `el id «${what.text}» ya es de otra cosa.`;
    case 'unknownName':
      return `no hay ${ONE_OF[what.table]} «${what.text}» en los registros. Impórtelo primero, o escriba el nombre como está en los registros.`;
    case 'nameTwice':
      return `«${what.text}» está más de una vez en los registros. Diga cuál con la columna id.`;
    case 'sameAsRow':
      return `es lo mismo que la fila ${what.row}.`;
    case 'otherThanRow':
      return `es distinto de la fila ${what.row}, que es de la misma clase.`;
    case 'tooManyOf':
      return `puede haber ${what.most} como máximo.`;
    case 'horseTwice':
      return `${what.text} ya está en esta clase.`;
    case 'notInRecord':
      return `los registros no lo admiten (${what.field}).`;
    case 'notCalendar':
      return 'no es un archivo de calendario: no empieza con BEGIN:VCALENDAR.';
    case 'noColon':
      return `«${what.text}» no es una línea de calendario: faltan un nombre y dos puntos.`;
    case 'notEnded':
      return `${what.name} empieza aquí y no termina.`;
    case 'endWithoutBegin':
      return `${what.name} termina aquí, pero no es lo último que empezó.`;
    case 'propertyMissing':
      return `falta ${what.name}.`;
    case 'allDay':
      return 'es para un día entero. Una clase o un turno necesita una hora.';
    case 'badValue':
      return `«${what.text}» no se puede leer.`;
    case 'unknownZone':
      return `la zona horaria «${what.text}» no se conoce, y el archivo no la describe.`;
    case 'tooManyTimes':
      return `se repite más de ${what.most} veces. Póngale un final.`;
    case 'badLength':
      return `${what.minutes} minutos no está entre ${what.low} y ${what.high}.`;
    case 'changeOfNothing':
      return 'cambia una fecha de algo que no está en el archivo.';
    case 'unknownWho':
      return `«${what.text}» no empieza con el nombre de un voluntario. Un turno se llama como el voluntario.`;
  }
}

export function sayProblem({ at, what }: Problem): string {
  return `${sayAt(at)}: ${sayWhat(what)}`;
}

export const FEED_WORDS = {
  leading: (horse: string, lesson: string) => `Guiar a ${horse}: ${lesson}`,
  sideWalking: (horse: string, lesson: string) => `Caminar junto a ${horse}: ${lesson}`,
  shift: 'En el establo',
} as const;

/** Calendar addresses, on the screen of files. */
export const FEEDS = {
  title: 'Direcciones de calendario',
  about:
    'El calendario de un teléfono puede seguir al establo. Quien tiene una dirección ve lo que hay en ella: no la dé a nadie más y retírela si se pierde.',
  lessons: 'Clases, sin nombres de jinetes',
  lessonsWithRiders: 'Clases con nombres de jinetes',
  person: 'Turnos y tareas de una persona',
  choose: 'Elija una persona',
  make: 'Crear una dirección',
  once: 'Se muestra una sola vez: la central no guarda copia. Escanéela o anótela ahora.',
  revoke: 'Retirar',
  gone: 'Alguien que ya no está en los registros',
  failed: 'La central no lo hizo. Intente otra vez.',
} as const;
