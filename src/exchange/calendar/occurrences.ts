/** When an event takes place, by its rule (RFC 5545 §3.3.10), on the barn's wall clock. */
import type { WallTime } from '../../time/zone.ts';
import type { Event } from './events.ts';
import { asTime, localIn, onBarnWall, wallOf, type EventTime } from './times.ts';

/** More occurrences than this in one file is a rule gone wrong. */
export const MOST_TIMES = 5000;

export type Occurrence = {
  /** As it is written, in the event's own zone. */
  readonly local: WallTime;
  /** On the barn's wall. */
  readonly at: WallTime;
};

/**
 * All occurrences on the barn's wall, in order, without those the event itself excepts. A rule without an end is followed up
 * to and with the date `until`; then `isEndless`. Null: more than `MOST_TIMES`.
 */
export function occurrences(
  event: Event,
  until: string,
  barnZone: string,
): { readonly times: readonly Occurrence[]; readonly isEndless: boolean } | null {
  const { start, rule, also } = event;
  const make = (local: WallTime): Occurrence => ({
    local,
    at: onBarnWall({ local, zone: start.zone }, barnZone),
  });
  const except = new Set(event.except.map((time) => wallKey(onBarnWall(time, barnZone))));
  const extra = also.map((time): Occurrence => ({ local: time.local, at: onBarnWall(time, barnZone) }));
  const times: Occurrence[] = [];
  let isEndless = false;
  if (!rule) times.push(make(start.local));
  else {
    const goesOn = rule.until === null && !rule.recur.isFinite();
    const last = rule.until && wallKey(localIn(rule.until, start.zone, barnZone));
    const next = rule.recur.iterator(asTime(start.local));
    for (let time = next.next(); time; time = next.next()) {
      const local = wallOf(time);
      if (last !== null && wallKey(local) > last) break;
      const occurrence = make(local);
      if (goesOn && occurrence.at.date > until) {
        isEndless = true;
        break;
      }
      times.push(occurrence);
      if (times.length > MOST_TIMES) return null;
    }
  }
  const all = [...times, ...extra].filter(({ at }) => !except.has(wallKey(at)));
  return { times: all.sort((a, b) => (wallKey(a.at) < wallKey(b.at) ? -1 : 1)), isEndless };
}

/** Whether an exception or a replacement is of this occurrence. */
export function isSameTime(a: WallTime, b: EventTime, barnZone: string): boolean {
  return wallKey(a) === wallKey(onBarnWall(b, barnZone));
}

export function wallKey({ date, time }: WallTime): string {
  return `${date}T${time}`;
}
