/** Names for ids in a sentence. */
export type NameOf = (id: string) => string;

/** `lesson` as in "the 15:00 lesson". */
export type Names = { readonly name: NameOf; readonly lesson: NameOf };
