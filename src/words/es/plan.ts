/**
 * What the planner proposes, in plain sentences: moves of work, and stand-ins with what is for and against each.
 * Stand-ins carry a rider’s figures: they are for no wall. The board advises; the instructor decides who rides what.
 */
import type { Hold } from '../../barn/horse.ts';
import type { Stage } from '../../barn/stage.ts';
import type { AdviceLevel } from '../../care/findingRules.ts';
import type { LoadCaution } from '../../care/load.ts';
import type { WorkloadOver } from '../../care/workload.ts';
import type { Cannot, Gain, Move, Verdict } from '../../plan/rebalance/model.ts';
import type { Against, Block, For, SideEffect, Task, Unblock } from '../../plan/standIns/model.ts';
import type { Moves, NameOf, Names } from '../names.ts';
import { counted, HOLD_WORD, span, STAGE_WORK } from './common.ts';
import { UNPLANNED } from './during.ts';

/** More moves than this are counted, not told. */
const TOLD_MOVES = 3;

/** A lesson in a sentence; `name` where the time alone does not tell it. Null: not on the board. */
export function sayLesson(lesson: { readonly time: string; readonly name: string | null } | null): string {
  if (!lesson) return 'una clase';
  const clase = `la clase de las ${lesson.time}`;
  return lesson.name === null ? clase : `${clase}, ${lesson.name}`;
}

/** "Dé cepillado y ensillado de Bracken a Ines: la clase de las 15:00 está lista 6 minutos antes, nadie llega tarde." */
export function sayAlternative({ moves, why }: Moves, names: Names): string {
  const what = moves.length > TOLD_MOVES ? `Haga ${moves.length} cambios` : sayMoves(moves, names);
  const { later } = why;
  const price =
    why.gain.code === 'givenOut'
      ? ''
      : later === null
        ? ', nadie se atrasa'
        : `, pero ${names.lesson(later.lesson)} se atrasa ${minutes(later.minutes)}`;
  return `${what}: ${sayGain(why.gain, names)}${price}.`;
}

/** "Dé cepillado y ensillado de Bracken a Ines y que Ada haga cascos de Moss antes de Fern" */
export function sayMoves(moves: readonly Move[], names: Names): string {
  return sentence(listed(moves.map((move) => sayMove(move, names))));
}

function sayMove({ horse, stages, from, to, before, beforeHorse }: Move, { name }: Names): string {
  const work = `${stagesOf(stages)} de ${name(horse)}`;
  if (from !== to) return `dé ${work} a ${name(to)}`;
  if (before === null || beforeHorse === null) return `que ${name(to)} haga ${work} al final`;
  const next = beforeHorse === horse ? 'lo demás' : name(beforeHorse);
  return `que ${name(to)} haga ${work} antes de ${next}`;
}

function stagesOf(stages: readonly Stage[]): string {
  return listed(stages.map((stage) => STAGE_WORK[stage].toLowerCase()));
}

function sayGain(gain: Gain, { name, lesson }: Names): string {
  switch (gain.code) {
    case 'getsReady':
      return `así queda listo ${name(gain.horse)}, para quien ahora nadie tiene tiempo`;
    case 'lessonEarlier':
      return `${lesson(gain.lesson)} está lista ${minutes(gain.minutes)} antes`;
    case 'lessLate':
      return `${minutes(gain.minutes)} menos de atraso entre todos los caballos`;
    case 'feetSooner':
      return `los cascos de ${name(gain.horse)} se revisan ${minutes(gain.minutes)} antes, con más tiempo para un reemplazo`;
    case 'givenOut':
      return gain.pieces === 1 ? 'todavía es trabajo de nadie' : 'todavía son trabajos de nadie';
  }
}

export const VERDICT: Record<Verdict, string> = {
  nothingToDo: 'Todos los caballos están ensillados.',
  inTime: 'A todos los caballos les sobra tiempo. No hace falta pasar nada.',
  better: 'Pasar trabajo ayudaría:',
  provenBest: 'Ningún plan es mejor por un minuto, lo haga quien lo haga.',
  noBetterFound: 'No se encontró un plan mejor. Puede haberlo.',
};

/** Why a horse cannot be planned to its end: "Moss, ensillado: Nadie de los presentes tiene autorización". */
export function sayCannot({ horse, stage, why }: Cannot, { name }: Names): string {
  const reason = why === 'notToday' ? 'No es para hoy' : UNPLANNED[why];
  return `${name(horse)}, ${STAGE_WORK[stage].toLowerCase()}: ${reason}`;
}

function minutes(count: number): string {
  return counted(count, 'minuto', 'minutos');
}

function listed(parts: readonly string[]): string {
  const [last, ...others] = parts.toReversed();
  if (last === undefined) return '';
  return others.length === 0 ? last : `${others.toReversed().join(', ')} y ${last}`;
}

function sentence(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

export const STAND_INS = {
  title: 'Reemplazos',
  option: (n: number) => `Opción ${n}`,
  take: 'Tomar esta opción',
  none: 'Según las reglas del establo ningún caballo puede reemplazarlo. Pregunte al instructor.',
  whyNot: 'Por qué no los otros',
  decides: 'El tablero aconseja. El instructor decide quién monta qué caballo.',
  notExact: 'No hubo tiempo para mirar todo. Puede haber algo mejor.',
  readyAt: (time: string) => `listo ${time}`,
  readyUnknown: 'no se sabe cuándo estará listo',
  change: (horse: string, instead: string | null) =>
    instead === null ? horse : `${horse} en lugar de ${instead}`,
  changeIn: (change: string, place: string) => `${change}: ${place}`,
  looking: 'Buscando caballos que puedan reemplazarlo…',
  noAnswer: 'La central no responde. Todavía se puede elegir un caballo a mano.',
  nothingToCover: 'Hoy no le queda ningún lugar.',
  chance: (tenths: number) => `${tenths} de cada 10 veces listo a tiempo`,
  who: 'Quién hace qué',
  effects: 'Qué más provoca',
  left: (place: string) => `Nadie para ${place}`,
  taken: 'Tomado. El caballo nuevo está en el tablero del pasillo.',
  find: 'Buscar reemplazos',
  byHand: 'Elegir a mano',
} as const;

const KG = new Intl.NumberFormat('es-419', { maximumFractionDigits: 1 });

/** Kilograms as a scale shows them. */
function kg(weight: number): string {
  return `${KG.format(weight)} kg`;
}

function percent(share: number): string {
  return `${Math.round(share * 100)} %`;
}

export function sayFor(reason: For): string {
  switch (reason.code) {
    case 'approved':
      return 'En la lista aprobada de este jinete.';
    case 'same-tack':
      return `El mismo equipo: ${reason.tack}.`;
    case 'nothing-left-to-do':
      return 'Hoy se prepara de todos modos.';
    case 'free-today':
      return 'Sin otra clase hoy.';
    case 'load-fits':
      return `Carga ${kg(reason.figures.totalKg)} de ${kg(reason.figures.limitKg)} permitidos, con el equipo.`;
    case 'several-lessons':
      return `Un caballo para ${reason.lessons} lugares.`;
  }
}

const OF = { rider: 'del jinete', horse: 'del caballo' } as const;

export function sayAgainst(reason: Against): string {
  switch (reason.code) {
    case 'not-on-approved-list':
      return 'No está en la lista aprobada de este jinete. Pregunte al instructor.';
    case 'weight-unknown':
      return `Falta el peso ${OF[reason.of]} en los registros. La lista aprobada nombra al caballo; pregunte al instructor.`;
    case 'load-caution':
      return LOAD_CAUTION[reason.caution];
    case 'other-tack':
      return `Otro equipo: ${reason.tack} en lugar de ${reason.wanted}.`;
    case 'work-left':
      return `Unos ${span(reason.minutes)} de preparación.`;
    case 'worked-today':
      return `${span(reason.minutes)} de clases hoy.`;
    case 'finding-read':
      return `${FINDING[reason.level]} Ya se leyó; pregunte al instructor.`;
    case 'tight':
      return `Solo sobran ${span(reason.spareMinutes)}.`;
    case 'chance':
      return `Probabilidad de estar listo a tiempo: ${percent(reason.chance)}.`;
    case 'ready-unknown':
      return 'No se sabe cuándo estará listo: todavía no hay nadie libre para él.';
    case 'moves-a-settled-place':
      return 'Cambia un lugar que ya estaba decidido.';
  }
}

const LOAD_CAUTION: Record<LoadCaution, string> = {
  'tack-weight-is-an-allowance': 'El equipo no se pesó; se usó el peso supuesto por el establo.',
  'tape-error-could-change-it': 'El caballo se midió con cinta. En una báscula podría pasar del límite.',
  'condition-thin': 'El caballo está flaco. Pregunte al instructor por la carga.',
  'condition-fat': 'El caballo está gordo. Pregunte al instructor por la carga.',
  'over-published-limit': 'Más del 20 % publicado del peso del caballo.',
};

const FINDING: Record<AdviceLevel, string> = {
  clear: 'Nada observado.',
  'carry-on': 'Una observación menor hoy.',
  wait: 'Una observación espera al instructor.',
  'off-today': 'Por una observación este caballo no trabaja hoy.',
  'call-now': 'Una observación pide veterinario o herrador.',
};

export function saySideEffect(effect: SideEffect, nameOf: NameOf): string {
  switch (effect.code) {
    case 'makes-late':
      return effect.lateMinutes === null
        ? `No deja a nadie para preparar a ${nameOf(effect.horse)} para ${nameOf(effect.lesson)}.`
        : `Atrasa a ${nameOf(effect.horse)} ${span(effect.lateMinutes)} para ${nameOf(effect.lesson)}.`;
    case 'work-not-given':
      return NOT_GIVEN[effect.why](nameOf(effect.horse));
    case 'leaves-place':
      return `Un jinete de ${nameOf(effect.lesson)} sigue sin caballo.`;
  }
}

const NOT_GIVEN: Record<Extract<SideEffect, { code: 'work-not-given' }>['why'], (horse: string) => string> = {
  nobodyCleared: (horse) => `Nadie de los presentes tiene autorización para todo lo de ${horse}. Repártalo.`,
  nobodyInTime: (horse) => `Nadie alcanza por sí solo a tener listo a ${horse}. Repártalo.`,
  later: (horse) => `${horse} puede esperar: déselo a alguien después.`,
};

/** What a person does from now. */
export function sayTask(task: Task, nameOf: NameOf): string {
  const stages = task.stages.map((stage) => STAGE_WORK[stage].toLowerCase()).join(', ');
  return `${nameOf(task.to)} prepara a ${nameOf(task.horse)}: ${stages}.`;
}

export function sayBlock(block: Block, nameOf: NameOf): string {
  switch (block.code) {
    case 'held':
      return `Retirado: ${block.kinds.map((kind: Hold['kind']) => HOLD_WORD[kind]).join(', ')}.`;
    case 'finding':
      return FINDING[block.level];
    case 'farrier-overdue':
      return `El herrador lleva ${block.days === 1 ? '1 día' : `${block.days} días`} de atraso; por la regla del establo no trabaja.`;
    case 'no-tack':
      return 'Sin lista de equipo en los registros.';
    case 'not-with-rider':
      return 'No con este jinete.';
    case 'asked-to-replace':
      return 'El caballo que se reemplaza.';
    case 'over-limit':
      return `Carga ${kg(block.figures.totalKg)}, con el equipo; se permiten ${kg(block.limitKg)}.`;
    case 'over-rider-cap':
      return `Más que el límite del establo para jinetes, ${kg(block.limitKg)}.`;
    case 'ask-instructor':
      return 'El tablero no puede decirlo. Pregunte al instructor.';
    case 'same-lesson':
      return 'Ya está en esta clase.';
    case 'overlapping-lesson':
      return `En ${nameOf(block.lesson)} a esa hora.`;
    case 'stands-in':
      return `Reemplaza en ${nameOf(block.lesson)} a esa hora.`;
    case 'workload':
      return sayOver(block.over);
    case 'not-ready':
      return `Listo al menos ${span(block.lateMinutes)} tarde.`;
    case 'not-settled':
      return 'El tablero no pudo decidir este. Pregunte al instructor.';
  }
}

function sayOver({ code, figure, limit }: WorkloadOver): string {
  switch (code) {
    case 'minutes-per-day':
      return `${span(Math.round(figure))} de trabajo hoy; el límite del establo es ${span(limit)}.`;
    case 'minutes-in-a-row':
      return `${span(Math.round(figure))} sin descanso; el límite del establo es ${span(limit)}.`;
    case 'lessons-per-day':
      return `${figure} clases hoy; el límite del establo es ${limit}.`;
    case 'days-in-a-row':
      return `${figure} días seguidos; el límite del establo es ${limit}.`;
    case 'days-per-week':
      return `${figure} días de siete; el límite del establo es ${limit}.`;
  }
}

/** What would change it. */
export function sayUnblock(unblock: Unblock, nameOf: NameOf): string {
  switch (unblock.do) {
    case 'delayLesson': {
      const delay = `Empiece ${nameOf(unblock.lesson)} al menos ${span(unblock.minutes)} después.`;
      if (unblock.clashes.length === 0) return delay;
      return `${delay} Entonces chocaría con ${unblock.clashes.map(nameOf).join(', ')}.`;
    }
    case 'lighterTack':
      return `Con equipo más liviano sí puede: ${unblock.name}, ${kg(unblock.kg)}.`;
    case 'giveUp': {
      const lessons = [...new Set(unblock.places.map((place) => nameOf(place.lesson)))].join(', ');
      return `Dé su lugar en ${lessons} a otro caballo.`;
    }
    case 'release':
      return unblock.wordFrom === null
        ? 'Una autorización con nombre.'
        : `Una autorización con nombre, y la palabra ${WORD_FROM[unblock.wordFrom]}.`;
    case 'readFindings':
      return 'Primero el instructor lee la observación.';
    case 'askInstructor':
      return unblock.missing === 'rider-weight'
        ? 'Anote el peso del jinete, o pida al instructor que apruebe el caballo.'
        : 'Pese al caballo, o pida al instructor que lo apruebe.';
    case 'mendRecord':
      return 'Un número de los registros no puede ser correcto. Primero corríjalo.';
    case 'farrierVisit':
      return 'La visita del herrador, anotada en su cuidado.';
    case 'addTackList':
      return 'Agréguele una lista de equipo en Registros.';
    case 'freeFirst':
      return `Otro caballo para su lugar en ${nameOf(unblock.lesson)}; no se encontró ninguno.`;
  }
}

const WORD_FROM = { vet: 'del veterinario', farrier: 'del herrador' } as const;
