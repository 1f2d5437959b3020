/** What calls for attention: one at a time, the others behind it. */
import type { WorkStage } from '../../barn/stage.ts';
import { STAGE_WORK, span } from './common.ts';

export const ALERTS = {
  all: 'What calls for attention',
  order: 'The most urgent first.',
  more: (count: number) => `and ${count} more`,
  waiting: (count: number) =>
    count === 1 ? '1 more calls for attention' : `${count} more call for attention`,
  notDone: 'A tap was not done',
  finding: (horse: string, advice: string) => `${horse}: ${advice}`,
  look: 'Look',
} as const;

export const FEET_DUE = {
  what: (horse: string) => `${horse}: feet to check`,
  why: (time: string) => `Was due ${time}. A stand-in may no longer be ready in time.`,
} as const;

export const ROLE_OPEN = {
  what: (lesson: string, time: string, missing: string) => `${lesson}, ${time}: ${missing}`,
  why: 'Somebody is needed beside the horse.',
} as const;

export const BEHIND = {
  what: (name: string, minutes: number) => `${name} is ${span(minutes)} behind`,
  why: (horse: string, stage: WorkStage) => `${horse}: ${STAGE_WORK[stage]} would end too late.`,
} as const;
