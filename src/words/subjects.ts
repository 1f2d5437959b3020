/**
 * The words of a screen, by subject: a tablet loads one language, and of it the subjects its screen needs. English gives
 * each subject its shape; a language that lacks a word, or takes other arguments, does not compile in `languages.ts`.
 */

/** What a word may be in another language: any string where English has a certain one, the same arguments, the same keys. */
export type Widened<T> = T extends string
  ? string
  : T extends (...args: infer A) => infer R
    ? (...args: A) => Widened<R>
    : T extends object
      ? { readonly [K in keyof T]: Widened<T[K]> }
      : T;

/** By subject, what English says. */
type InEnglish = {
  common: typeof import('./en/common.ts');
  aisle: typeof import('./en/aisle.ts');
  door: typeof import('./en/door.ts');
  findings: typeof import('./en/findings.ts');
  care: typeof import('./en/care.ts');
  desk: typeof import('./en/desk.ts');
  plan: typeof import('./en/plan.ts');
  setup: typeof import('./en/setup.ts');
  begin: typeof import('./en/begin.ts');
  records: typeof import('./en/records.ts');
  sheet: typeof import('./en/sheet.ts');
  exchange: typeof import('./en/exchange.ts');
  end: typeof import('./en/end.ts');
  paper: typeof import('./en/paper.ts');
  help: typeof import('./en/help.ts');
  pair: typeof import('./en/pair.ts');
};

export type Subject = keyof InEnglish;

/** A whole language. */
export type Subjects = { readonly [S in Subject]: Widened<InEnglish[S]> };

type AllOf<T> = (T extends unknown ? (one: T) => void : never) extends (all: infer A) => void ? A : never;

/** The words of all subjects side by side, as a screen says them. No name stands in two subjects. */
export type Words = AllOf<Subjects[Subject]>;
