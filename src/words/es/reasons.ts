/** Why an op changed nothing, or less than it said. */
import type { Reason } from '../../day/ops.ts';
import type { NameOf } from '../names.ts';
import { STAGE_WORK, CLEARANCE_WORD } from './common.ts';

/** Of a coordinator's tap that the hub heard of once the tablet was locked. */
export const LOCKED_MEANWHILE =
  'Eso solo lo puede hacer la coordinación, y esta tableta ya estaba bloqueada cuando le llegó a la central: no se hizo. Desbloquéela y toque de nuevo.';

/** A reason as one plain sentence that says what to do. */
export function sayReason(reason: Reason, nameOf: NameOf): string {
  switch (reason.code) {
    case 'unknownPrep':
      return 'Ese caballo ya no está en la lista de hoy. Vuelva a mirar su ficha.';
    case 'unknownHorse':
      return 'El tablero no conoce ese caballo.';
    case 'unknownPerson':
      return 'El tablero no conoce a esa persona.';
    case 'unknownLesson':
      return 'Esa clase no está en la lista de hoy.';
    case 'unknownPlace':
      return 'Ese lugar ya no está en la clase.';
    case 'unknownPiece':
      return 'Ese trabajo ya no está en la lista de hoy.';
    case 'unknownRecord':
      return 'Ese registro ya no existe.';
    case 'unknownFinding':
      return 'Esa observación ya no está en el tablero.';
    case 'unknownCall':
      return 'Ese pedido de ayuda ya no está en el tablero.';
    case 'notClearedFor':
      return `${nameOf(reason.volunteer)} no tiene autorización para esto: ${CLEARANCE_WORD[reason.clearance]}. Elija a otra persona.`;
    case 'tooYoung':
      return `${nameOf(reason.volunteer)} es menor de edad, y las reglas de este establo piden ahí un adulto.`;
    case 'roleTwice':
      return `${nameOf(reason.volunteer)} ya tiene una tarea en ${nameOf(reason.lesson)} a esa hora. Primero quítele esa.`;
    case 'roleFull':
      return 'Ya van dos personas al lado de este caballo. Elija a quién reemplazar.';
    case 'ridersUp':
      return `Hay jinetes montados en ${nameOf(reason.lesson)}: queda como está hasta que bajen. Pida al instructor que pare, los baje y toque «Todos abajo».`;
    case 'samePerson':
      return `Usted ensilló a ${nameOf(reason.horse)}: la cincha y los estribos los revisa otra persona.`;
    case 'onlyLeader':
      return `En este establo la cincha y los estribos los revisa quien guía a ${nameOf(reason.horse)}, o un instructor.`;
    case 'needsInstructor':
      return 'Esta revisión es del instructor. Toque el nombre de un instructor.';
    case 'horsePulled':
      return `${nameOf(reason.horse)} está retirado del trabajo de hoy. Su toque queda como nota; pregunte al instructor.`;
    case 'notNeeded':
      return `${nameOf(reason.horse)} ya no hace falta para una clase. Su toque queda como nota; pregunte en coordinación qué sigue.`;
    case 'notPulled':
      return `${nameOf(reason.horse)} no está retirado.`;
    case 'needsName':
      return 'Primero diga quién es: toque su nombre.';
    case 'notCleared':
      return `${nameOf(reason.volunteer)} no tiene autorización para esto con ${nameOf(reason.horse)}: ${STAGE_WORK[reason.stage].toLowerCase()}. Pregunte en coordinación.`;
    case 'needsWord':
      return `${nameOf(reason.horse)} espera al veterinario o al herrador. Antes de autorizarlo, anote lo que dijeron.`;
    case 'lessonExists':
      return 'Ya hay otra clase así.';
    case 'horseTwice':
      return `${nameOf(reason.horse)} ya está en esta clase.`;
    case 'stillUsed':
      return 'Todavía hace falta hoy.';
    case 'dayOver':
      return 'Ese día no está abierto en el tablero.';
    case 'nothingToUndo':
      return 'Ya no hay nada que deshacer.';
    case 'changedSince':
      return 'Alguien lo cambió después, así que no se puede deshacer. Cámbielo a mano.';
    case 'notYours':
      return 'Solo se deshace en la tableta donde se tocó, o en coordinación.';
    case 'notAllowedHere':
      return 'Esta tableta no puede hacer eso. Pregunte en coordinación.';
    case 'unreadable':
      return 'Un toque guardado en esta tableta es de otra versión del tablero y no se pudo tomar. Mire las fichas de los caballos y toque de nuevo.';
  }
}
