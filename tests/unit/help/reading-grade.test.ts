/**
 * First-day help: how many steps, how long, and how hard to read. Flesch-Kincaid grade = 0.39 words a sentence + 11.8 syllables a word
 * − 15.59 (readabilityformulas.com; the same in general manuals); syllables counted by the npm package `syllable`.
 */
import { syllable } from 'syllable';
import { describe, expect, it } from 'vitest';
import { HELP_PAGES, HELP_SUBJECTS, stepsFor, type HelpSubject } from '#core/help/pages.ts';
import * as english from '#core/words/en/help.ts';
import * as spanish from '#core/words/es/help.ts';

/** From figures alone. */
function grade(words: number, sentences: number, syllables: number): number {
  return (0.39 * words) / sentences + (11.8 * syllables) / words - 15.59;
}

function gradeOf(text: string): number {
  const words = text.match(/[\p{L}’'-]+/gu) ?? [];
  const sentences = text.split(/[.!?:]+(?:\s|$)/).filter((one) => one.trim() !== '');
  return grade(
    words.length,
    sentences.length,
    words.reduce((sum, word) => sum + syllable(word), 0),
  );
}

const linesOf = (subject: HelpSubject, words: { HELP_STEP: unknown }): string[] =>
  HELP_PAGES[subject].map(
    ({ id }) => (words.HELP_STEP as Record<string, Record<string, string>>)[subject]![id]!,
  );

describe('the formula on worked figures', () => {
  it.each([
    [13, 1, 24, 11.265], // wikisum.wiki: 11.3
    [100, 8, 140, 5.805],
    [10, 1, 14, 4.83],
    [8, 2, 9, -0.755],
  ])('%i words, %i sentences, %i syllables', (words, sentences, syllables, is) => {
    expect(grade(words, sentences, syllables)).toBeCloseTo(is, 3);
  });
});

describe.each(HELP_SUBJECTS)('%s', (subject) => {
  const lines = linesOf(subject, english);

  it('has 5 to 9 steps, each with words in both languages, and a short form of at least two', () => {
    expect(lines.length).toBeGreaterThanOrEqual(5);
    expect(lines.length).toBeLessThanOrEqual(9);
    for (const line of [...lines, ...linesOf(subject, spanish)])
      expect(line).toEqual(expect.stringMatching(/.{8}/));
    const said = Object.keys(english.HELP_STEP[subject]).sort();
    expect(HELP_PAGES[subject].map(({ id }): string => id).sort()).toEqual(said);
    if (subject !== 'extras') expect(stepsFor(subject, 0).length).toBeGreaterThanOrEqual(2);
  });

  it('reads at grade 6 or below, no step above 8, and each step is a line', () => {
    const page = gradeOf(lines.join(' '));
    console.log(`${subject}: Flesch-Kincaid grade ${page.toFixed(1)}`);
    expect(page).toBeLessThanOrEqual(6);
    for (const line of lines) {
      expect(gradeOf(line), line).toBeLessThanOrEqual(8);
      expect(line.length, line).toBeLessThanOrEqual(80);
    }
    for (const line of linesOf(subject, spanish)) expect(line.length, line).toBeLessThanOrEqual(90);
  });
});

describe('how much is shown', () => {
  it('the long form when there is time or nobody knows, the short one when there is not', () => {
    expect(stepsFor('tack', null)).toHaveLength(HELP_PAGES.tack.length);
    expect(stepsFor('tack', 5)).toHaveLength(HELP_PAGES.tack.length);
    expect(stepsFor('tack', 4.9)).toEqual(HELP_PAGES.tack.filter(({ isShort }) => isShort));
    expect(stepsFor('tack', -3).length).toBeLessThan(HELP_PAGES.tack.length);
  });

  it('the short form keeps what could hurt most', () => {
    for (const subject of ['fetch', 'feet', 'tack'] as const)
      expect(
        stepsFor(subject, 0).some(({ signal }) => signal === 'WARNING'),
        subject,
      ).toBe(true);
  });
});
