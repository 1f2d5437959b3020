/** What a tile says about its horse, in words and numbers. */
import type { AisleTile } from '#core/day/views/aisle.ts';
import { minutesUntil } from '#core/time/countdown.ts';
import { AISLE, HOLD_WORD, READINESS_WORD, inMinutesShort, span } from '#core/words/en.ts';
import { clockTime } from '../format.ts';

/** The word on the tile's chip: with how late, where the horse is late. */
export function chipText(tile: AisleTile): string {
  const word = tile.word === 'nobody' ? AISLE.nobody : READINESS_WORD[tile.word];
  if (tile.word !== 'late' || tile.spareMs === null) return word;
  const late = -minutesUntil(tile.spareMs, 0);
  return late > 0 ? `${word} ${span(late)}` : word;
}

/** The line under the track: who is on it, whose it is, or why there is nothing to do. */
export function whoText(tile: AisleTile, zone: string): string {
  if (tile.hold) return HOLD_WORD[tile.hold.kind];
  if (tile.status === 'free') return AISLE.free;
  if (tile.status === 'inLesson' && tile.lesson) {
    return AISLE.inLesson(tile.lesson.name, clockTime(tile.lesson.end, zone));
  }
  if (tile.onIt) return `${AISLE.onIt(tile.onIt.name)} ${AISLE.since(clockTime(tile.onIt.since, zone))}`;
  if (tile.next === null) {
    const tacked = tile.stages.find(({ stage }) => stage === 'tack');
    const at = tacked?.at ? AISLE.since(clockTime(tacked.at, zone)) : '';
    return tacked?.by ? `${AISLE.tackedBy(tacked.by)} ${at}` : at;
  }
  return tile.given ? AISLE.given(tile.given.name) : AISLE.givenNobody;
}

/** `14:35` and `in 22 min`; null when the horse has no ramp time to come. */
export function rampText(tile: AisleTile, zone: string, now: number): { time: string; until: string } | null {
  if (tile.rampTime === null || tile.status === 'inLesson') return null;
  return { time: clockTime(tile.rampTime, zone), until: inMinutesShort(minutesUntil(tile.rampTime, now)) };
}

/** By when the next stage must be finished; null while the forecast does not say. */
export function nextNeededBy(tile: AisleTile): number | null {
  return tile.stages.find(({ stage }) => stage === tile.next)?.neededBy ?? null;
}
