/** A day's board put together from facts, through the same functions that a coordinator's taps go through. */
import type { Barn } from '#core/barn/barn.ts';
import type { Lesson } from '#core/barn/lesson.ts';
import type { Stage } from '#core/barn/stage.ts';
import type { Board, Prep } from '#core/day/board.ts';
import { emptyDay } from '#core/day/emptyDay.ts';
import { pieceId, stagesOf } from '#core/day/pieces.ts';
import type { OpFact } from '#core/day/ops.ts';
import { Sequence } from '#core/day/sequence.ts';

/** Somebody's hours today, ms. `from` null: nobody has said when they come. */
export type Hours = {
  readonly volunteer: string;
  readonly from: number | null;
  readonly until: number | null;
};

export type DayPlan = {
  readonly date: string;
  readonly lessons: readonly Lesson[];
  readonly hours: readonly Hours[];
  /** Who gets which pieces, once the lessons are there to ask for them. */
  readonly given: (board: Board) => readonly Given[];
};

export type Given = { readonly to: string; readonly pieces: readonly string[] };

/** The board of `barn` with this day set up at `now` (ms). Throws when a fact of the plan is declined. */
export function setUp(barn: Barn, plan: DayPlan, now: number): Board {
  const sequence = new Sequence({
    board: { barn, day: emptyDay(null), findings: [], worked: [] },
    seq: 0,
    at: now,
    seen: [],
  });
  const say = (fact: OpFact): void => {
    const op = { id: `setup-${sequence.seq + 1}`, device: 'setup', by: null, tappedAt: now, fact };
    const { outcome } = sequence.accept(op, 'coordinator', now);
    if (outcome.why) throw new Error(`${fact.kind}: ${outcome.why.code} ${JSON.stringify(fact)}`);
  };
  say({ kind: 'dayOpened', date: plan.date });
  for (const hours of plan.hours) say({ kind: 'volunteerExpected', ...hours });
  for (const lesson of plan.lessons) say({ kind: 'lessonAdded', lesson });
  for (const { to, pieces } of plan.given(sequence.board)) {
    if (pieces.length > 0) say({ kind: 'workMoved', pieces: [...pieces], to, before: null });
  }
  // Nobody undoes the set-up tap by tap.
  const { board } = sequence;
  return { ...board, day: { ...board.day, recent: [] } };
}

/** The prep that serves this horse in this lesson. Throws when there is none. */
export function prepFor(board: Board, lesson: string, horse: string): Prep {
  const prep = Object.values(board.day.preps).find(
    (one) => one.horse === horse && one.places.some((ref) => ref.lesson === lesson),
  );
  if (!prep) throw new Error(`no prep of ${horse} for ${lesson}`);
  return prep;
}

/** Its pieces: of these stages, or of all. */
export function piecesOf(prep: Prep, stages: readonly Stage[] = stagesOf(prep)): string[] {
  return stagesOf(prep)
    .filter((stage) => stages.includes(stage))
    .map((stage) => pieceId(prep.id, stage));
}
