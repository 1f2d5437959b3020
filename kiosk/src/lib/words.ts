/**
 * What this tablet says, in its one language. A page's words are loaded before it is drawn (each route's `load` calls
 * `learn`); another language means loading the page anew. So nothing may keep a word at a module's top level: it would be
 * read before it is there.
 */
import { languageFor, type Language } from '#core/words/languages.ts';
import type { Subject, Words } from '#core/words/subjects.ts';
import { loadAnew } from './link/browser.ts';
import { Remembered } from './link/store.ts';

/** Words of the subjects learned so far. */
export const say = {} as Words;

let chosen: Language | null = null;

/** The tablet's own choice, else the first of the browser's languages that is one of ours. */
export function language(): Language {
  chosen ??= languageFor([
    ...[new Remembered(localStorage).get('language') ?? []].flat(),
    ...navigator.languages,
  ]);
  return chosen;
}

/** The hub is given this long before the next try, in ms. */
const AGAIN_MS = 3000;

/** For what is opened later on a page that stays: throws when the words cannot be fetched now. */
export async function learnLater(...subjects: Subject[]): Promise<void> {
  const { load } = language();
  await Promise.all(subjects.map(async (subject) => Object.assign(say, await load[subject]())));
}

/** To be awaited before anything of these subjects is drawn. What cannot be fetched now is fetched by a new load of the page. */
export async function learn(...subjects: Subject[]): Promise<void> {
  try {
    await learnLater(...subjects);
  } catch {
    // A browser may not ask again for a module it once failed to fetch.
    for (;;) {
      await new Promise((done) => setTimeout(done, AGAIN_MS));
      await loadAnew(null);
    }
  }
}
