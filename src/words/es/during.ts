/** During and after lessons: asking for help, roles, checks, riders up and down, changed lessons, putting away. */
import type { ChangeReason } from '../../barn/lesson.ts';
import type { StillOut } from '../../day/after.ts';
import type { RoleName } from '../../day/roles.ts';
import type { Unplanned } from '../../plan/model.ts';
import { span } from './common.ts';

/** Why a piece of work stands in nobody's queue. */
export const UNPLANNED: Record<Unplanned, string> = {
  nobodyHere: 'Todavía no hay nadie',
  nobodyCleared: 'Nadie de los presentes tiene autorización',
  nobodyFree: 'Nadie tiene tiempo antes de irse',
  badLength: 'El tablero no puede decir cuánto tarda: revise los minutos por etapa del establo',
};

export const RIDE = {
  allUp: 'Todos arriba',
  allDown: 'Todos abajo',
  upSince: (name: string, time: string) => `${name}: jinetes arriba desde ${time}`,
  running: (name: string) => `${name} en curso`,
  until: (time: string) => `hasta ${time}`,
  stays: 'Quien guía se queda con su caballo mientras haya jinetes arriba.',
} as const;

export const ROLE_WORD: Record<RoleName, string> = { leader: 'Guía', sideWalker: 'Acompañante lateral' };

export const ROLE = {
  title: 'Puestos',
  open: 'libre',
  gone: (name: string) => `${name} no está`,
  openCount: (count: number) => (count === 1 ? '1 puesto libre' : `${count} puestos libres`),
  openRoles: 'Puestos sin nadie',
  of: (role: string, horse: string) => `${role} de ${horse}`,
  choose: (role: string, horse: string) => `${role} de ${horse}: ¿quién?`,
  now: (name: string) => `Ahora: ${name}`,
  nobody: 'Nadie, por ahora',
  swaps: 'se cambian',
  leavesAt: (time: string) => `se va a las ${time}`,
  queued: (count: number) => (count === 0 ? 'nada más' : count === 1 ? '1 tarea' : `${count} tareas`),
  takes: (name: string, role: string, horse: string) => `${name}: ${role} de ${horse}`,
  frees: (role: string, horse: string) => `${role} de ${horse}: nadie por ahora`,
  missing: (roles: readonly RoleName[]) =>
    `${roles.length === 1 ? 'falta' : 'faltan'} ${roles.map((role) => (role === 'leader' ? 'guía' : 'acompañante')).join(' y ')}`,
  noOne: 'No hay nadie más en la lista de hoy.',
} as const;

export const CHANGE_REASON: Record<ChangeReason, string> = {
  weather: 'Clima',
  'running-late': 'Retraso',
  horses: 'Caballos',
  people: 'Personas',
  riders: 'Jinetes',
  other: 'Otra cosa',
};

export const CHANGE = {
  title: 'Cambiar horarios',
  why: '¿Por qué?',
  which: '¿Qué clases?',
  onlyThis: 'Solo esta',
  laterHere: (count: number) => (count === 1 ? 'Esta y 1 más aquí' : `Esta y ${count} más aquí`),
  laterAll: (count: number) => (count === 1 ? 'Esta y 1 más hoy' : `Esta y ${count} más hoy`),
  delayed: (count: number, minutes: number) =>
    minutes >= 0
      ? `${count === 1 ? 'La clase' : `${count} clases`} ${span(minutes)} más tarde`
      : `${count === 1 ? 'La clase' : `${count} clases`} ${span(-minutes)} más temprano`,
  swapWith: 'Cambiar con',
  swapped: (a: string, b: string) => `${a} y ${b} cambian de hora y de pista`,
  cancelled: (count: number) => (count === 1 ? 'La clase se cancela' : `Se cancelan ${count} clases`),
  cancel: 'Cancelar',
  wasAt: (time: string) => `era ${time}`,
  noOther: 'No queda otra clase por venir.',
  handOver: (name: string) => `Trabajo y puestos de ${name}`,
  handOverNone: 'No queda nada suyo pendiente.',
  workOpen: 'Trabajo que ahora no es de nadie',
  proposal: 'El tablero propone',
  searching: 'El tablero busca quién podría tomarlo…',
} as const;

export const AFTER = {
  body: 'Lomo, cinchera, patas, boca: ¿vio algo?',
  nothing: 'No vi nada más',
  turnedOut: 'en el box o en el potrero',
  toPutAway: (count: number) => (count === 1 ? '1 caballo por guardar' : `${count} caballos por guardar`),
  awayAt: (time: string) => `todos guardados hacia las ${time}`,
  giveOut: 'Dar a quien tiene tiempo',
  gives: (people: readonly { name: string; horses: readonly string[] }[]) =>
    `Después de las clases: ${people.map(({ name, horses }) => `${name} ${horses.join(', ')}`).join('; ')}`,
  done: 'El pasillo está listo',
  stillOut: (count: number) => (count === 1 ? 'Aún afuera: 1' : `Aún afuera: ${count}`),
  out: 'Aún afuera',
  nothingOut: 'Todo está guardado.',
  what: (what: StillOut['what'], item: string | null) =>
    what === 'box'
      ? 'su caja de cepillos'
      : what === 'halter'
        ? 'cabestro en el amarradero'
        : (item ?? 'equipo'),
} as const;

export const TICK = {
  ticked: (done: number, all: number) => `${done} de ${all} marcados`,
  on: 'puesto',
  off: 'todavía no',
} as const;
