/** Bands on a scale: where one begins, and whether the edge itself belongs to it. */
import type { BandEdge } from './bandEdge.ts';

/** "From 130": the edge belongs to the band. */
export function from(at: number): BandEdge {
  return { at, inclusive: true };
}

/** "Over 150": the edge still belongs to the band below. */
export function over(at: number): BandEdge {
  return { at, inclusive: false };
}

/** Whether a value lies in the band that begins at this edge. NaN lies in none. */
export function reaches(edge: BandEdge, value: number): boolean {
  return edge.inclusive ? value >= edge.at : value > edge.at;
}
