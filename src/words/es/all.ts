/** Spanish, fetched by the subject. */
import type { Loaders } from '../subjects.ts';

export const SPANISH: Loaders = {
  common: () => import('./common.ts'),
  hub: () => import('./hub.ts'),
  reasons: () => import('./reasons.ts'),
  menu: () => import('./menu.ts'),
  aisle: () => import('./aisle.ts'),
  tile: () => import('./tile.ts'),
  door: () => import('./door.ts'),
  findings: () => import('./findings.ts'),
  care: () => import('./care.ts'),
  during: () => import('./during.ts'),
  alerts: () => import('./alerts.ts'),
  desk: () => import('./desk.ts'),
  plan: () => import('./plan.ts'),
  setup: () => import('./setup.ts'),
  begin: () => import('./begin.ts'),
  records: () => import('./records.ts'),
  rules: () => import('./rules.ts'),
  sheet: () => import('./sheet.ts'),
  exchange: () => import('./exchange.ts'),
  end: () => import('./end.ts'),
  paper: () => import('./paper.ts'),
  help: () => import('./help.ts'),
  pair: () => import('./pair.ts'),
  trust: () => import('./trust.ts'),
};
