/** The languages a tablet can speak. A third one is one more file and one more entry: nothing else names a language. */
import { ENGLISH } from './en/all.ts';
import type { Loaders, Subject, Subjects } from './subjects.ts';

export type Language = {
  /** BCP 47, for the page, and to be chosen by. */
  readonly code: string;
  /** BCP 47 with a region, for `Intl`: how times, dates and numbers are written. */
  readonly locale: string;
  /** As its own speakers call it. */
  readonly name: string;
  readonly direction: 'ltr' | 'rtl';
  readonly load: Loaders;
};

const FIRST: Language = { code: 'en', locale: 'en-GB', name: 'English', direction: 'ltr', load: ENGLISH };

async function spanish(): Promise<Loaders> {
  return (await import('./es/all.ts')).SPANISH;
}

/** First: what a tablet speaks that asked for none of them. */
export const LANGUAGES: readonly Language[] = [
  FIRST,
  { code: 'es', locale: 'es-419', name: 'Español', direction: 'ltr', load: inFiles(spanish) },
];

/** The first of `wanted` (BCP 47 tags, best first) that is one of ours, by its language alone; else English. */
export function languageFor(wanted: readonly string[]): Language {
  for (const tag of wanted) {
    const [base] = tag.toLowerCase().split('-');
    const found = LANGUAGES.find(({ code }) => code === base);
    if (found) return found;
  }
  return FIRST;
}

/** For a language that is a file a subject: where they are is fetched with the first of its words, by those alone who speak it. */
function inFiles(table: () => Promise<Loaders>): Loaders {
  return bySubject(async (name) => (await table())[name]());
}

/** For a language that is one file with an export for each subject. */
export function inOneFile(file: () => Promise<Subjects>): Loaders {
  return bySubject(async (name) => (await file())[name]);
}

function bySubject(words: (name: Subject) => Promise<Subjects[Subject]>): Loaders {
  const names = Object.keys(ENGLISH) as Subject[];
  return Object.fromEntries(names.map((name) => [name, () => words(name)])) as unknown as Loaders;
}
