/** What a sentence about the plan is made with. */
import type { Move, Why } from '../plan/rebalance/model.ts';

/** Names for ids in a sentence. */
export type NameOf = (id: string) => string;

/** `lesson` as in "the 15:00 lesson". */
export type Names = { readonly name: NameOf; readonly lesson: NameOf };

/** What an alternative moves, and what that is good for. */
export type Moves = { readonly moves: readonly Move[]; readonly why: Why };
