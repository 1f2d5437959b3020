/** Tablas y calendarios, entrada y salida. */
import type { Table } from '../../barn/barn.ts';
import type { CalendarOf } from '../../exchange/calendar/preview.ts';
import type { Kind } from '../../exchange/csv/columns.ts';
import { columnLetters, type At, type NamedTable, type Problem, type What } from '../../exchange/problem.ts';

export const EXCHANGE_PAGE = 'Importar · Aisle Board';

export const EXCHANGE_KIND: Record<Kind | CalendarOf, string> = {
  horses: 'Caballos',
  volunteers: 'Voluntarios',
  riders: 'Jinetes',
  lessons: 'Clases',
  shifts: 'Turnos',
};

export const EXCHANGE_TABLE: Partial<Record<Table, string>> = {
  stalls: 'Cuadras',
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
  stalls: 'ninguna cuadra',
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
      return `el tablero no conoce a ${ONE_OF[what.table]} «${what.text}». Impórtelo primero, o escriba el nombre como está en los registros.`;
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
