/** Every language says everything, in its own words. What must hold is the project's own rule: common practice, no source. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { describe, expect, test } from 'vitest';
import { ENGLISH } from '#core/words/en/all.ts';
import { inOneFile, LANGUAGES, languageFor } from '#core/words/languages.ts';
import { inventedLanguage, longer } from './pseudo.ts';

/** By `subject.NAME.key`: what stands the same in Spanish, as a name, a unit, or words the two share. */
const SAME_IN_SPANISH = new Set([
  'common.BOARD.title',
  'findings.sayFinding',
  'records.RECORD_FIELD.instructor',
  'records.RECORD_ROLE.instructor',
  'end.END.csv',
]);
const SAME_TEXT_IN_SPANISH = new Set(['Aisle Board', 'No', 'Instructor']);

type Said = { readonly at: string; readonly text: string };

/** Every text there is; of a function its source, without the module names a build puts in it. */
function textsIn(at: string, said: unknown): Said[] {
  if (typeof said === 'string') return [{ at, text: said }];
  if (typeof said === 'function') return [{ at, text: String(said).replace(/__vi_import_\d+__/g, '') }];
  if (typeof said !== 'object' || said === null) return [];
  return Object.entries(said).flatMap(([key, value]) => textsIn(`${at}.${key}`, value));
}

/** Letters that could be words: a text of figures, units and what it is given has nothing to translate. */
function hasWords(text: string): boolean {
  const literals = /=>|function/.test(text)
    ? [...text.matchAll(/'([^']*)'|"([^"]*)"|`([^`]*)`/g)].map(([all]) => all.replace(/\$\{[^}]*\}/g, ''))
    : [text];
  return literals.some((one) => /\p{L}{3,}/u.test(one.replace(/\bmin\b/g, '')));
}

/** Texts of a file, also of what it keeps to itself: those that begin as a sentence does, or have several words. */
function sentencesIn(file: string): string[] {
  const texts: string[] = [];
  const walk = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node)) return;
    if (ts.isStringLiteral(node) || ts.isTemplateLiteralToken(node)) texts.push(node.text.trim());
    ts.forEachChild(node, walk);
  };
  walk(ts.createSourceFile(file, readFileSync(file, 'utf8'), ts.ScriptTarget.Latest));
  return texts.filter((text) => /^\p{Lu}\p{Ll}|\p{L}{2} \p{L}{2}/u.test(text));
}

const [, ...others] = LANGUAGES;

describe.each(others.map((language) => ({ name: language.name, language })))('$name', ({ language }) => {
  test.each(Object.keys(ENGLISH) as (keyof typeof ENGLISH)[])('%s is translated', async (subject) => {
    const own = new Map(
      textsIn(subject, { ...(await language.load[subject]()) }).map(({ at, text }) => [at, text]),
    );
    const left = textsIn(subject, { ...(await ENGLISH[subject]()) }).filter(
      ({ at, text }) => own.get(at) === text && hasWords(text) && !SAME_IN_SPANISH.has(at),
    );
    expect(left).toEqual([]);
  });
});

test('Spanish leaves no sentence in English, also where only its own file sees it', () => {
  const folder = (code: string): string =>
    fileURLToPath(new URL(`../../../src/words/${code}/`, import.meta.url));
  for (const subject of Object.keys(ENGLISH)) {
    const english = new Set(sentencesIn(`${folder('en')}${subject}.ts`));
    const left = sentencesIn(`${folder('es')}${subject}.ts`).filter(
      (text) => english.has(text) && !SAME_TEXT_IN_SPANISH.has(text),
    );
    expect({ subject, left }).toEqual({ subject, left: [] });
  }
});

test('no name stands in two subjects: a screen says them side by side', async () => {
  const names = await Promise.all(Object.values(ENGLISH).map(async (load) => Object.keys(await load())));
  const all = names.flat();
  expect(all.filter((name, i) => all.indexOf(name) !== i)).toEqual([]);
});

describe('which language', () => {
  test.each([
    [['es-MX', 'en-US'], 'es'],
    [['ES'], 'es'],
    [['fr-CA', 'es'], 'es'],
    [['en-AU', 'es'], 'en'],
    [['fr'], 'en'],
    [[], 'en'],
  ])('%j is answered in %s', (wanted, code) => expect(languageFor(wanted).code).toBe(code));
});

test('a third language is one file: it says everything, longer', async () => {
  const load = inOneFile(inventedLanguage);
  const [common, door] = [await load.common(), await load.door()];
  expect(common.BOARD.undo).toBe(longer('Undo'));
  expect(common.span(125)).toBe(longer('2 h 5 min'));
  expect(door.DOOR.readyOf(2, 3)).toBe(longer('2 of 3 ready'));
  // Texts of ten letters and fewer grow most when translated; 40 % is what is asked of the layout here.
  for (const text of ['Ramp', 'Not started', 'The hub does not answer yet.'])
    expect(longer(text).length / text.length).toBeGreaterThanOrEqual(1.4);
  expect(Object.keys(load)).toEqual(Object.keys(ENGLISH));
});
