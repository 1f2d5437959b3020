/** On a horse’s tile beside its stages: calls, checks, rest, and what the barn’s rules make of what was seen. No diagnosis, no dose. */
import type { Advice } from '../../care/advise.ts';
import type { Handling, Whom } from '../../care/findingRules.ts';
import { span } from './common.ts';

export const CALL = {
  hand: 'Venga a ayudar',
  unsure: 'No estoy seguro',
  calls: (name: string) => `llama a ${name}`,
  handAt: (horse: string, stall: string) => `Ayuda con ${horse}, box ${stall}`,
  unsureAt: (horse: string, stall: string, to: string | null) =>
    to === null
      ? `Hay una duda con ${horse}, box ${stall}`
      : `${to}, por favor: duda con ${horse}, box ${stall}`,
  by: (name: string) => `lo pide ${name}`,
  free: (name: string, metres: number | null) =>
    metres === null ? `${name} está libre` : `${name} está libre, a ${Math.round(metres)} m`,
  freeHere: (metres: number | null) => (metres === null ? 'libre' : `libre, a ${Math.round(metres)} m`),
  nobodyFree: 'Ahora no hay nadie libre y autorizado',
  coming: (names: string) => `${names.includes(', ') ? 'Van' : 'Va'} ${names}`,
  whoComes: '¿Quién va?',
  whoEnds: '¿Ya está? ¿Quién lo dice?',
  asked: (horse: string, kind: 'hand' | 'unsure', to: string | null) =>
    kind === 'unsure' && to !== null
      ? `${horse}: se avisó a ${to}. Quédese con el caballo y espere.`
      : `${horse}: se pidió ayuda en todos los tableros.`,
  who: (horse: string) => `${horse}: ¿quién lo pide?`,
} as const;

export const CHECK = {
  girth: 'Cincha y estribos',
  girthHint: 'otra persona',
  girthBy: (name: string) => `Cincha revisada: ${name}`,
  who: (horse: string) => `${horse}: ¿quién revisó cincha y estribos? No quien ensilló.`,
  instructor: 'Revisión del instructor',
  notChecked: 'sin revisar',
  notByInstructor: 'aún sin revisión del instructor',
  checkAll: (open: number) => `Revisión del instructor: faltan ${open}`,
  allChecked: 'Revisado por el instructor',
  whichHorse: '¿Qué caballo está revisado?',
  all: 'Todos',
  whoChecks: '¿Quién revisó?',
} as const;

export const REST = {
  until: (time: string, water: boolean) => `Descansa hasta ${time}${water ? ', ofrecer agua' : ''}`,
  short: (minutes: number) => `${span(minutes)} menos de descanso que lo que pide el establo`,
} as const;

const HANDLING: Record<Handling, string> = {
  'leave-it-in': 'No lo saque.',
  'keep-still': 'Que el caballo no se mueva.',
  'soft-ground': 'Solo en suelo blando.',
  'no-tack-over-it': 'Sin equipo encima.',
  'own-kit-only': 'Solo sus propios cepillos.',
  'wash-hands': 'Lávese las manos.',
  'stand-back': 'Aléjese.',
  'compare-feet': 'Toque también los otros cascos.',
};

const OFF: Record<Whom, string> = {
  vet: 'Sin trabajo hasta que lo vea el veterinario',
  farrier: 'Sin trabajo hasta que lo vea el herrador',
  instructor: 'Sin trabajo hoy hasta que lo autorice un instructor',
};

const TELLS: Record<Exclude<Whom, 'instructor'>, string> = { vet: 'al veterinario', farrier: 'al herrador' };

/** The advice in one line, worst first. */
export function sayAdvice({ level, whom }: Pick<Advice, 'level' | 'whom'>): string {
  switch (level) {
    case 'clear':
      return 'Nada que avisar';
    case 'carry-on':
      return 'Siga, y avise al instructor';
    case 'wait':
      return 'Espere al instructor';
    case 'off-today':
      return OFF[whom];
    case 'call-now':
      return whom === 'farrier' ? 'Llame ya al herrador' : 'Llame ya al veterinario';
  }
}

/** What to do with the horse meanwhile; empty: nothing special. */
export function sayHandling({ handling }: Pick<Advice, 'handling'>): string {
  return handling.map((one) => HANDLING[one]).join(' ');
}

/** Whom to tell. */
export function sayWhom({ level, whom }: Pick<Advice, 'level' | 'whom'>): string {
  if (level === 'clear') return '';
  if (whom === 'instructor') return 'Avise al instructor.';
  return `Avise al instructor, que avisa ${TELLS[whom]}.`;
}

/** On a horse that has just come in for another. */
export const STAND_IN_MARK = 'reemplazo';

/** Under what the barn’s rules make of a finding. */
export const DECIDERS = 'Deciden el instructor, el veterinario y el herrador.';

/** On a horse that is kept apart. */
export const ISOLATED_SHORT = 'Solo su equipo. Hágalo al final. Lávese las manos.';
export const ISOLATED_TILE = 'Su equipo · al final · lavarse';

/** After something was told of a horse. */
export const toldOf = (horse: string): string => `Avisado: ${horse}`;

/** Of somebody who could put the horse away. */
export const couldDo = (name: string): string => `${name} tiene tiempo`;
