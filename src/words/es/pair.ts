/** Letting a tablet into the barn, and a coordinator into the board. */
import type { GATE_REFUSALS } from '../../wire/gate.ts';
import { counted } from './common.ts';

export const PAIR_PAGE = 'Vincular una tableta · Aisle Board';
export const UNLOCK_PAGE = 'Desbloquear · Aisle Board';

export function sayWait(ms: number): string {
  const seconds = Math.ceil(ms / 1000);
  return seconds <= 60
    ? counted(seconds, 'segundo', 'segundos')
    : counted(Math.ceil(seconds / 60), 'minuto', 'minutos');
}

export const PAIR = {
  title: 'Vincule esta tableta',
  hint: 'Pida un código a la coordinación: Coordinación, Tabletas, Código nuevo. Para la primera tableta lo muestra la pantalla de la central.',
  again: 'Nadie de la coordinación tiene PIN. Escriba el código que muestra ahora la pantalla de la central.',
  code: 'Código de vinculación',
  wrong: 'Ese no es el código, o tiene más de cinco minutos. Pida uno nuevo.',
  wait: (ms: number) =>
    `Demasiados códigos equivocados. Espere ${sayWait(ms)}, o apunte la cámara de esta tableta al dibujo de un código nuevo.`,
  noHub: 'La central no respondió. Intente de nuevo cuando vuelva.',
  asking: 'Preguntando a la central…',
} as const;

export const PIN_PAD = {
  erase: 'Borrar',
  done: 'Listo',
  entered: (count: number) => counted(count, 'cifra', 'cifras'),
} as const;

export const FIRST = {
  title: '¿Quién coordina aquí?',
  hint: 'Quien coordina desbloquea cualquier tableta con un PIN. Después se pueden agregar otras personas.',
  name: 'Su nombre',
  next: 'Siguiente',
  choose: (name: string) => `${name}, elija un PIN de 6 a 12 cifras`,
  repeat: 'El mismo PIN otra vez',
  different: 'Los dos PIN no eran iguales. Elija de nuevo.',
} as const;

export const UNLOCK = {
  title: 'Desbloquear para coordinar',
  who: '¿Quién es usted?',
  pin: (name: string) => `${name}, su PIN`,
  hint: 'Tras dos minutos sin que nadie la toque, esta tableta se bloquea sola.',
  forgotten: '¿Lo olvidó? Otra persona que coordina puede darle uno nuevo, o quien cuida la central.',
  cancel: 'Ahora no',
} as const;

export function sayGateRefusal(why: (typeof GATE_REFUSALS)[number], waitMs: number): string {
  switch (why) {
    case 'wrongPin':
      return waitMs > 0 ? `Ese no es el PIN. Espere ${sayWait(waitMs)}.` : 'Ese no es el PIN.';
    case 'wait':
      return `Demasiados PIN equivocados. Espere ${sayWait(waitMs)} e intente de nuevo.`;
    case 'weakPin':
      return 'Ese PIN es muy fácil de adivinar: al menos 6 cifras, no todas iguales ni seguidas.';
    case 'notAllowedHere':
      return 'Esta tableta está bloqueada. Desbloquéela antes con un PIN de coordinación.';
    case 'unknown':
      return 'Eso ya no está en la lista.';
    case 'needsConsole':
      return 'Esta tableta no se vinculó con un código de la pantalla de la central.';
    case 'lastPin':
      return 'Es el último PIN que hay. Dele antes uno a otra persona.';
    case 'notWritten':
      return 'La central no pudo anotarlo. Intente de nuevo.';
  }
}

export const TABLET_LIST = {
  title: 'Tabletas de este establo',
  newCode: 'Código nuevo',
  codeHint: 'Escríbalo en la tableta nueva, o acerque su cámara al dibujo. Vincula una sola tableta.',
  codeLasts: (minutes: number) =>
    minutes < 1 ? 'Vale menos de un minuto.' : `Vale ${counted(minutes, 'minuto', 'minutos')} más.`,
  codeOver: 'Este código ya no vale. Haga uno nuevo.',
  tablet: (name: string) => `Tableta ${name}`,
  here: 'conectada',
  seen: (when: string) => `vista por última vez ${when}`,
  this: 'esta misma',
  nowhere: 'todavía no cuelga en ningún lugar',
  rename: 'Nombre',
  change: 'Cambiar',
  strikeOff: 'Dar de baja',
  strikeOffSure: (name: string) =>
    `¿Dar de baja la tableta ${name}? Su tablero se apaga enseguida y necesita un código nuevo para volver. Para una tableta perdida o que deja el establo.`,
  strikeOffNow: 'Darla de baja',
  save: 'Guardar',
  addresses: 'Dónde encuentran las tabletas esta central',
} as const;

export const PINS = {
  title: 'PIN de quienes coordinan',
  hint: 'Las personas que coordinan se agregan en Registros, personal.',
  has: 'tiene PIN',
  hasNot: 'no tiene PIN',
  set: 'Dar un PIN',
  change: 'PIN nuevo',
  take: 'Quitar el PIN',
  takeSure: (name: string) =>
    `¿Quitar el PIN de ${name}? ${name} no podrá desbloquear ninguna tableta hasta que alguien le dé otro.`,
  takeNow: 'Quitarlo',
  choose: (name: string) => `Un PIN para ${name}, de 6 a 12 cifras`,
} as const;

export const BACKUP = {
  title: 'Copia de seguridad',
  hint: 'Todo el establo en un archivo, con los datos de los jinetes: guárdelo donde solo llegue la coordinación.',
  download: 'Descargar una copia',
} as const;
