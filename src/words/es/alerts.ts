/** What calls for attention: one at a time, the others behind it. */
import type { WorkStage } from '../../barn/stage.ts';
import { STAGE_WORK, span } from './common.ts';

export const ALERTS = {
  all: 'Lo que pide atención',
  order: 'Lo más urgente primero.',
  more: (count: number) => `y ${count} más`,
  waiting: (count: number) => (count === 1 ? '1 más pide atención' : `${count} más piden atención`),
  notDone: 'Un toque no se cumplió',
  finding: (horse: string, advice: string) => `${horse}: ${advice}`,
  look: 'Ver',
} as const;

export const FEET_DUE = {
  what: (horse: string) => `${horse}: revisar los cascos`,
  why: (time: string) => `Era para las ${time}. Quizá ya no haya tiempo para un reemplazo.`,
} as const;

export const ROLE_OPEN = {
  what: (lesson: string, time: string, missing: string) => `${lesson}, ${time}: ${missing}`,
  why: 'Hace falta alguien junto al caballo.',
} as const;

export const BEHIND = {
  what: (name: string, minutes: number) => `${name} lleva ${span(minutes)} de atraso`,
  why: (horse: string, stage: WorkStage) =>
    `${horse}, ${STAGE_WORK[stage].toLowerCase()}: no estaría a tiempo.`,
} as const;
