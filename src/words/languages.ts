/** The languages a tablet can speak. A third one is one more file and one more entry: nothing else names a language. */
import type { Subject, Subjects } from './subjects.ts';

/** How each subject's words are fetched when a screen needs them. */
export type Loaders = { readonly [S in Subject]: () => Promise<Subjects[S]> };

export type Language = {
  /** BCP 47, for the page, for `Intl`, and to be chosen by. */
  readonly code: string;
  /** As its own speakers call it. */
  readonly name: string;
  readonly direction: 'ltr' | 'rtl';
  readonly load: Loaders;
};

const ENGLISH: Language = {
  code: 'en',
  name: 'English',
  direction: 'ltr',
  load: {
    common: () => import('./en/common.ts'),
    aisle: () => import('./en/aisle.ts'),
    door: () => import('./en/door.ts'),
    findings: () => import('./en/findings.ts'),
    care: () => import('./en/care.ts'),
    desk: () => import('./en/desk.ts'),
    plan: () => import('./en/plan.ts'),
    setup: () => import('./en/setup.ts'),
    begin: () => import('./en/begin.ts'),
    records: () => import('./en/records.ts'),
    sheet: () => import('./en/sheet.ts'),
    exchange: () => import('./en/exchange.ts'),
    end: () => import('./en/end.ts'),
    paper: () => import('./en/paper.ts'),
    help: () => import('./en/help.ts'),
    pair: () => import('./en/pair.ts'),
  },
};

const SPANISH: Language = {
  code: 'es',
  name: 'Español',
  direction: 'ltr',
  load: {
    common: () => import('./es/common.ts'),
    aisle: () => import('./es/aisle.ts'),
    door: () => import('./es/door.ts'),
    findings: () => import('./es/findings.ts'),
    care: () => import('./es/care.ts'),
    desk: () => import('./es/desk.ts'),
    plan: () => import('./es/plan.ts'),
    setup: () => import('./es/setup.ts'),
    begin: () => import('./es/begin.ts'),
    records: () => import('./es/records.ts'),
    sheet: () => import('./es/sheet.ts'),
    exchange: () => import('./es/exchange.ts'),
    end: () => import('./es/end.ts'),
    paper: () => import('./es/paper.ts'),
    help: () => import('./es/help.ts'),
    pair: () => import('./es/pair.ts'),
  },
};

/** First: what a tablet speaks that asked for none of them. */
export const LANGUAGES: readonly [Language, ...Language[]] = [ENGLISH, SPANISH];

/** The first of `wanted` (BCP 47 tags, best first) that is one of ours, by its language alone; else English. */
export function languageFor(wanted: readonly string[]): Language {
  for (const tag of wanted) {
    const [base] = tag.toLowerCase().split('-');
    const found = LANGUAGES.find(({ code }) => code === base);
    if (found) return found;
  }
  return ENGLISH;
}
