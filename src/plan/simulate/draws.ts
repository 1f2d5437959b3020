/**
 * Chance for the forecast: per piece, one number in (0, 1) for each draw. A Latin hypercube (McKay, Beckman and
 * Conover 1979): each piece's numbers are the middles of equal strata in an order of their own, which spreads the draws
 * evenly for every piece. The order comes from the seed and the piece's id and nothing else, so that a what-if meets
 * the same luck on the same piece (common random numbers), and so does the forecast a moment later.
 */
import { seededRandom } from '../search/random.ts';

/** `ranks[p * draws + s]`: which stratum piece `p` meets in draw `s`. */
export function ranksOf(pieceIds: readonly string[], draws: number, seed: number | string): Uint16Array {
  const ranks = new Uint16Array(pieceIds.length * draws);
  pieceIds.forEach((id, p) => {
    const random = seededRandom(hashOf(`${seed}/${id}`));
    const own = ranks.subarray(p * draws, (p + 1) * draws);
    for (let s = 0; s < draws; s += 1) {
      // Fisher and Yates, inside out.
      const other = random.below(s + 1);
      own[s] = own[other]!;
      own[other] = s;
    }
  });
  return ranks;
}

/** The middle of stratum `rank` of `draws`. */
export function middleOf(rank: number, draws: number): number {
  return (rank + 0.5) / draws;
}

/** FNV-1a, 32 bits. */
function hashOf(text: string): number {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i += 1) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  return hash >>> 0;
}
