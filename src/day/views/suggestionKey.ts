import type { Alternative } from '../../wire/suggested.ts';

/** Names an alternative by who would get what: one with the same key proposes the same, give or take its turn. */
export function keyOf({ moves }: Alternative): string {
  return JSON.stringify(moves.map(({ to, pieces }) => [to, ...pieces]));
}
