/** The stages of a preparation, in the order they are done, and what a person must be cleared for. */
import * as z from 'zod/mini';

/** Feet first: a lost or loose shoe takes the horse off the lesson, so it must be known before the rest of the work. */
export const STAGES = ['feet', 'coat', 'tack'] as const;
export const Stage = z.enum(STAGES);
export type Stage = z.infer<typeof Stage>;

/** What a volunteer is cleared to do. `experienced` is what some horses ask for on top. */
export const CLEARANCES = ['feet', 'coat', 'tack', 'lead', 'side-walk', 'experienced'] as const;
export const Clearance = z.enum(CLEARANCES);
export type Clearance = z.infer<typeof Clearance>;

/** What a person must be cleared for to do `stage` on a horse that asks for experience in `experiencedFor`. */
export function asks(experiencedFor: readonly Stage[], stage: Stage): Clearance[] {
  return experiencedFor.includes(stage) ? [stage, 'experienced'] : [stage];
}

/** Whether these clearances cover all that is asked. */
export function isCleared(has: readonly Clearance[], asked: readonly Clearance[]): boolean {
  return asked.every((clearance) => has.includes(clearance));
}
