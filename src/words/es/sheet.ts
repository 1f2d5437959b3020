/** The day sheet: lessons, places, conflicts and proposals. */
import type { Conflict } from '../../day/conflicts.ts';
import type { AlongBlock } from '../../day/goAlong.ts';
import type { Missing } from '../../day/fromBook.ts';
import type { HorseBlock, LeftOpen, PersonReason } from '../../plan/propose/model.ts';
import type { NameOf } from '../names.ts';
import { counted } from './common.ts';
import { sayBlock, sayUnblock } from './plan.ts';

/** The sheet of a day to come. */
export const SHEET_PAGE = 'Hoja del día · Aisle Board';

export const SHEET = {
  title: 'Hoja del día',
  back: 'Coordinación',
  date: 'Fecha',
  isToday: 'Es el día de hoy.',
  preview: 'Lo que cambie aquí vale solo para esta fecha; las demás semanas quedan como están.',
  past: 'Este día ya pasó. Lo que ocurrió está en el cierre del día.',
  dayBefore: 'El día anterior',
  dayAfter: 'El día siguiente',
  take: 'Tomar del plan semanal',
  propose: 'Proponer para lugares libres',
  nothingOpen: 'No queda nada libre que el tablero pueda cubrir.',
  accept: 'Aceptar la propuesta',
  leave: 'Dejarlo',
  addLesson: 'Agregar una clase',
  addPlace: 'Agregar un lugar',
  noLessons: 'No hay clases en esta fecha.',
  people: 'Quién viene y cuándo',
  horse: 'Caballo',
  rider: 'Jinete',
  leader: 'Guía',
  tack: 'Equipo',
  sideWalker: 'Acompañante',
  name: 'Nombre de la clase',
  time: 'Empieza a las',
  fine: 'No hay nada en contra de este día.',
  undo: 'Deshacer',
  here: 'Está aquí',
  comes: (from: string, until: string) => `Viene ${from}–${until}`,
  change: 'Cambiar la clase',
  minutes: 'Duración (min)',
  save: 'Guardar',
  wanted: 'Personas necesarias',
  wantsLeader: 'Un guía',
  wantsWalkers: 'Acompañantes',
  takeOut: 'Quitar este lugar',
  notOn: 'No en esta fecha',
  ownForm: 'Cambiada para esta fecha',
  everyWeek: 'Otra vez como cada semana',
  allWeeks: 'Cambiar cada semana',
  closed: (why: string) =>
    why === '' ? 'El establo está cerrado en esta fecha.' : `El establo está cerrado en esta fecha: ${why}`,
  lasts: (minutes: number) => `${minutes} min`,
  wants: (leader: boolean, sideWalkers: number) => {
    const wanted = [
      ...(leader ? ['guía'] : []),
      ...(sideWalkers > 0 ? [counted(sideWalkers, 'acompañante', 'acompañantes')] : []),
    ];
    return wanted.length === 0 ? 'nadie' : wanted.join(', ');
  },
} as const;

/** Before a change is made. */
export const CLASHES = {
  title: 'Lo que entonces choca',
  none: 'Nada nuevo choca.',
} as const;

const SHEET_ROLE = { leader: 'guiar', sideWalker: 'acompañar' } as const;

/** A conflict as a sentence, and what to do. */
export function sayConflict(conflict: Conflict, nameOf: NameOf): string {
  switch (conflict.code) {
    case 'no-horse':
      return 'Falta el caballo. Elija uno o pida una propuesta.';
    case 'no-tack-chosen':
      return `${nameOf(conflict.horse)}: falta elegir el equipo. Elija una lista.`;
    case 'pair': {
      const { block, horse } = conflict;
      const todo = block.unblock === null ? 'Elija otro caballo.' : sayUnblock(block.unblock, nameOf);
      return `${nameOf(horse)}: ${sayBlock(block, nameOf)} ${todo}`;
    }
    case 'workload':
      return `${nameOf(conflict.horse)}: ${sayBlock({ code: 'workload', over: conflict.over, unblock: null }, nameOf)} Dé uno de sus lugares a otro caballo.`;
    case 'horse-twice':
      return `${nameOf(conflict.horse)} está en ${nameOf(conflict.other)} a la misma hora. Elija otro caballo para una de las dos.`;
    case 'too-little-between':
      return `${nameOf(conflict.horse)} tiene ${conflict.minutes} min después de ${nameOf(conflict.other)} y necesita ${conflict.needed}. Empiece más tarde o elija otro caballo.`;
    case 'rider-twice':
      return `Este jinete está en ${nameOf(conflict.other)} a la misma hora. Quite uno de los dos.`;
    case 'arena-twice':
      return `${nameOf(conflict.arena)} también la usa ${nameOf(conflict.other)} a esta hora. Vea si caben las dos.`;
    case 'instructor-twice':
      return `${nameOf(conflict.person)} enseña ${nameOf(conflict.other)} a la misma hora. Elija otro instructor.`;
    case 'no-instructor':
      return 'Falta el instructor. Elija uno.';
    case 'along':
      return `${nameOf(conflict.person)} ${sayAlong(conflict.block, nameOf)} Elija a otra persona para ${SHEET_ROLE[conflict.role]}.`;
    case 'open-role':
      return conflict.free === 0
        ? `Nadie con autorización para ${SHEET_ROLE[conflict.role]} está libre. Pida a alguien que venga o cambie la hora.`
        : `Falta alguien para ${SHEET_ROLE[conflict.role]}; ${counted(conflict.free, 'persona puede', 'personas pueden')}. Elija a una.`;
  }
}

function sayAlong(block: AlongBlock, nameOf: NameOf): string {
  switch (block.code) {
    case 'not-cleared':
      return 'no tiene autorización para eso.';
    case 'too-young':
      return 'es menor, y las reglas del establo piden un adulto.';
    case 'not-expected':
      return 'no está en la lista de este día.';
    case 'away':
      return 'no está.';
    case 'other-hours':
      return 'no está durante toda la clase.';
    case 'busy':
      return `también hace falta en ${nameOf(block.lesson)}.`;
  }
}

export function sayPersonReason(reason: PersonReason): string {
  switch (reason.code) {
    case 'others-free':
      return reason.others === 0
        ? 'nadie más puede'
        : counted(reason.others, 'persona más puede', 'personas más pueden');
    case 'with-this-rider-before':
      return 'ya estuvo hoy con este jinete';
    case 'experienced':
      return 'con experiencia, como pide este caballo';
    case 'in-lessons':
      return reason.lessons === 0
        ? 'en ninguna otra clase todavía'
        : `ya en ${counted(reason.lessons, 'clase', 'clases')}`;
  }
}

/** What the book names and the barn keeps no more. */
export function sayMissing({ what }: Missing, lesson: string): string {
  const NAMED: Record<Missing['what'], string> = {
    arena: 'la pista',
    instructor: 'quien enseña',
    rider: 'un jinete',
    horse: 'un caballo',
    tack: 'un equipo',
    leader: 'un guía',
    sideWalker: 'un acompañante',
  };
  return `${lesson}: ya no está en los registros ${NAMED[what]}. Elija otro en Registros.`;
}

/** Why a place or a role stays open, with the first few who were looked at. */
export function sayLeftOpen(open: LeftOpen, lesson: string, nameOf: NameOf): string {
  if (open.what === 'horse') {
    const why = open.horses
      .slice(0, MOST_NAMED)
      .flatMap(({ horse, blocks: [block] }) =>
        block ? `${nameOf(horse)}: ${sayHorseBlock(block, nameOf)}` : [],
      );
    return [`${lesson}: ningún caballo sirve para un lugar.`, ...why, more(open.horses.length)].join(' ');
  }
  const why = open.people
    .slice(0, MOST_NAMED)
    .flatMap(({ person, blocks: [block] }) => (block ? `${nameOf(person)} ${sayAlong(block, nameOf)}` : []));
  return [`${lesson}: no hay quien pueda ${SHEET_ROLE[open.what]}.`, ...why, more(open.people.length)].join(
    ' ',
  );
}

const MOST_NAMED = 4;

function more(count: number): string {
  const others = count - MOST_NAMED;
  return others > 0 ? `Tampoco ${others === 1 ? 'puede otro' : `pueden otros ${others}`}.` : '';
}

function sayHorseBlock(block: HorseBlock, nameOf: NameOf): string {
  return block.code === 'too-little-between'
    ? `solo ${block.minutes} min entre esta clase y ${nameOf(block.lesson)}, y necesita ${block.needed}.`
    : sayBlock(block, nameOf);
}
