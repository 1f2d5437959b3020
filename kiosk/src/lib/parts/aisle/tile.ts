/** What a tile says about its horse, in words and numbers. */
import type { AisleTile } from '#core/day/views/aisle.ts';
import { minutesUntil } from '#core/time/countdown.ts';
import { clockTime } from '../format.ts';
import { say } from '../../words.ts';

/** The word on the tile's chip: with how late, where the horse is late. */
export function chipText(tile: AisleTile): string {
  const word = tile.word === 'nobody' ? say.AISLE.nobody : say.READINESS_WORD[tile.word];
  if (tile.word !== 'late' || tile.spareMs === null) return word;
  const late = -minutesUntil(tile.spareMs, 0);
  return late > 0 ? `${word} ${say.span(late)}` : word;
}

/** Nothing is to be done on this horse before a lesson: its word says nothing. */
export function isQuiet({ status, kind }: AisleTile): boolean {
  return kind === 'after' || status === 'free' || status === 'inLesson' || status === 'putAway';
}

/** One more line where there is one to say: a call, the rest between lessons, or time for mane and tail. */
export function asideText(tile: AisleTile, zone: string): { what: string; text: string } | null {
  if (tile.call) {
    const { kind, to, coming } = tile.call;
    const asked = kind === 'unsure' && to !== null ? `${say.CALL.unsure}: ${to}` : say.CALL[kind];
    return { what: 'call', text: coming === null ? asked : say.CALL.coming(coming) };
  }
  if (tile.rest)
    return { what: 'rest', text: say.REST.until(clockTime(tile.rest.until, zone), tile.rest.water) };
  const isOnCoat = tile.stages.some(({ stage, state }) => stage === 'coat' && state === 'underWay');
  return tile.extras && isOnCoat ? { what: 'extras', text: say.EXTRAS.yes } : null;
}

/** The line under the track: who is on it, whose it is, or why there is nothing to do. */
export function whoText(tile: AisleTile, zone: string): string {
  if (tile.hold) return say.HOLD_WORD[tile.hold.kind];
  if (tile.status === 'free') return say.AISLE.free;
  if (tile.status === 'putAway') return say.STAGE_DONE.away;
  if (tile.status === 'inLesson' && tile.lesson) {
    return say.AISLE.inLesson(tile.lesson.name, clockTime(tile.lesson.end, zone));
  }
  if (tile.onIt)
    return `${say.AISLE.onIt(tile.onIt.name)} ${say.AISLE.since(clockTime(tile.onIt.since, zone))}`;
  if (tile.next === null) {
    const tacked = tile.stages.find(({ stage }) => stage === 'tack');
    const at = tacked?.at ? say.AISLE.since(clockTime(tacked.at, zone)) : '';
    return tacked?.by ? `${say.AISLE.tackedBy(tacked.by)} ${at}` : at;
  }
  if (tile.given) return say.AISLE.given(tile.given.name);
  return tile.couldDo === null ? say.AISLE.givenNobody : say.couldDo(tile.couldDo);
}

/** `14:35` and `in 22 min`; null when the horse has no ramp time to come. */
export function rampText(tile: AisleTile, zone: string, now: number): { time: string; until: string } | null {
  if (tile.rampTime === null || tile.status === 'inLesson') return null;
  return {
    time: clockTime(tile.rampTime, zone),
    until: say.inMinutesShort(minutesUntil(tile.rampTime, now)),
  };
}

/** By when the next stage must be finished; null while the forecast does not say. */
export function nextNeededBy(tile: AisleTile): number | null {
  return tile.stages.find(({ stage }) => stage === tile.next)?.neededBy ?? null;
}
