/** The stages of a horse's work before and after its lessons, in order, and what a person must be cleared for. */

/** Feet first: a lost or loose shoe takes the horse off the lesson, so it must be known before the rest of the work. */
export const STAGES = ['feet', 'coat', 'tack'] as const;
export type Stage = (typeof STAGES)[number];

/** After its last lesson: tack off, walked until cool, feet and body looked over, put into its stall or turned out. */
export const AFTER_STAGES = ['untack', 'cool', 'look', 'away'] as const;
export type AfterStage = (typeof AFTER_STAGES)[number];

/** Any stage, before or after the lessons. */
export const WORK_STAGES = [...STAGES, ...AFTER_STAGES] as const;
export type WorkStage = (typeof WORK_STAGES)[number];

export function isAfterStage(stage: WorkStage): stage is AfterStage {
  return AFTER_STAGES.some((after) => after === stage);
}

/** What a volunteer is cleared to do. `experienced` is what some horses ask for on top. */
export const CLEARANCES = ['feet', 'coat', 'tack', 'lead', 'side-walk', 'experienced'] as const;
export type Clearance = (typeof CLEARANCES)[number];

/** Who may tack may untack; who may check feet may look a horse over; walking a horse cool is in hand. No source. */
const ASKS: Readonly<Record<WorkStage, readonly Clearance[]>> = {
  feet: ['feet'],
  coat: ['coat'],
  tack: ['tack'],
  untack: ['tack'],
  cool: [],
  look: ['feet'],
  away: [],
};

/** The work before a lesson that asks for the same care as a stage after it. */
const LIKE: Readonly<Record<WorkStage, Stage | null>> = {
  feet: 'feet',
  coat: 'coat',
  tack: 'tack',
  untack: 'tack',
  cool: null,
  look: 'feet',
  away: null,
};

/** What a person must be cleared for to do `stage` on a horse that asks for experience in `experiencedFor`. */
export function asks(experiencedFor: readonly Stage[], stage: WorkStage): Clearance[] {
  const like = LIKE[stage];
  return like !== null && experiencedFor.includes(like) ? [...ASKS[stage], 'experienced'] : [...ASKS[stage]];
}

/** Whether these clearances cover all that is asked. */
export function isCleared(has: readonly Clearance[], asked: readonly Clearance[]): boolean {
  return asked.every((clearance) => has.includes(clearance));
}
