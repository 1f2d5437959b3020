/**
 * The words of a screen, by subject: a tablet loads one language, and of it the subjects its screen needs. English gives
 * each subject its shape; a language that lacks a word, or takes other arguments, does not compile.
 */
import type { ENGLISH } from './en/all.ts';

/** What a word may be in another language: any string where English has a certain one, the same arguments, the same keys. */
type Widened<T> = T extends string
  ? string
  : T extends (...args: infer A) => infer R
    ? (...args: A) => Widened<R>
    : T extends object
      ? { readonly [K in keyof T]: Widened<T[K]> }
      : T;

type InEnglish = typeof ENGLISH;

export type Subject = keyof InEnglish;

/** A whole language. */
export type Subjects = { readonly [S in Subject]: Widened<Awaited<ReturnType<InEnglish[S]>>> };

/** How each subject's words are fetched when a screen needs them. */
export type Loaders = { readonly [S in Subject]: () => Promise<Subjects[S]> };

type AllOf<T> = (T extends unknown ? (one: T) => void : never) extends (all: infer A) => void ? A : never;

/** The words of all subjects side by side, as a screen says them. No name stands in two subjects. */
export type Words = AllOf<Subjects[Subject]>;
