/** An invented language made from English by a function: every text 40 % longer. How it is made is the test's own. */
import { ENGLISH } from '#core/words/en/all.ts';
import type { Subjects } from '#core/words/subjects.ts';

/** `Ramp` becomes `Ramp·am`: more of the text's own letters, so that it breaks into lines where a text would. */
export function longer(text: string): string {
  const extra = Math.ceil(text.length * 0.4);
  return extra === 0
    ? text
    : `${text}·${text
        .slice(1)
        .padEnd(extra, text)
        .slice(0, extra - 1)}`;
}

/** The same for whatever stands in a subject: texts, functions that make them, and groups of both. */
export function invented<T>(said: T): T {
  if (typeof said === 'string') return longer(said) as T;
  if (typeof said === 'function') {
    return ((...args: unknown[]) => invented((said as (...args: unknown[]) => unknown)(...args))) as T;
  }
  if (Array.isArray(said)) return said.map(invented) as T;
  if (typeof said !== 'object' || said === null) return said;
  return Object.fromEntries(Object.entries(said).map(([key, value]) => [key, invented(value)])) as T;
}

/** A whole third language, as one file would export it. */
export async function inventedLanguage(): Promise<Subjects> {
  const english = await Promise.all(
    Object.entries(ENGLISH).map(async ([name, load]) => [name, await load()] as const),
  );
  return invented(Object.fromEntries(english)) as unknown as Subjects;
}
