/**
 * What of an option may be read on a wall: horses, places, times. Nothing of a rider, and one word for every "no".
 * Limit by role, as in 45 CFR 164.502(b), and GDPR Art. 5(1)(c), data minimisation.
 */
import { reasonForAisle, type AisleReason } from '../../care/aisleReason.ts';
import type { Blocked, StandInOption } from './model.ts';

export type DoorChange = {
  readonly lesson: string;
  readonly place: string;
  readonly horse: string;
  readonly horseName: string;
  readonly ready: number | null;
  readonly chance: number | null;
};

export type DoorBlocked = {
  readonly lesson: string;
  readonly place: string;
  readonly horse: string;
  readonly horseName: string;
  readonly reason: AisleReason;
};

export function forDoor({ changes }: StandInOption): readonly DoorChange[] {
  return changes.map(({ lesson, place, horse, horseName, readiness }) => ({
    lesson,
    place,
    horse,
    horseName,
    ready: readiness.ready,
    chance: readiness.chance,
  }));
}

/** A missing weight reads like any other "no": to say "ask" would say that this rider has none on record. */
export function blockedForDoor({ lesson, place, horse, horseName }: Blocked): DoorBlocked {
  return { lesson, place, horse, horseName, reason: reasonForAisle('does-not-fit') };
}
