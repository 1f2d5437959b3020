/**
 * The day on paper, for when the power is out: a page for each lesson, and pages for the aisle with a box to tick for each
 * stage. It needs nothing but a board. What hangs in the aisle names no rider, and nothing here has a weight or a need.
 */
import { own } from '../../barn/basics.ts';
import type { Caution } from '../../barn/horse.ts';
import { STAGES, type AfterStage, type Stage } from '../../barn/stage.ts';
import { neededByRule } from '../../ledger/spare.ts';
import { MINUTE_MS } from '../../time/units.ts';
import type { Board, Prep } from '../board.ts';
import { stagesOf } from '../pieces.ts';
import { isPulled, lessonEnd, lessonsOf, markOf, placeRamp, rampTime } from '../preps.ts';

/** Names are as they are called; null: nobody, or not known. Instants in ms. */
export type PaperPlace = {
  readonly id: string;
  readonly rider: string | null;
  readonly horse: string | null;
  readonly stall: string | null;
  readonly tack: string | null;
  readonly leader: string | null;
  readonly sideWalkers: readonly string[];
  readonly ramp: number;
};

export type PaperLesson = {
  readonly id: string;
  readonly name: string;
  readonly start: number;
  readonly end: number;
  readonly arena: string | null;
  readonly instructor: string | null;
  readonly places: readonly PaperPlace[];
};

/** `at` null with `done`: done at a time nobody knows. `neededBy` null: not asked of this prep. */
export type PaperStage = {
  readonly stage: Stage;
  readonly neededBy: number | null;
  readonly done: boolean;
  readonly at: number | null;
};

export type PaperHorse = {
  readonly prep: string;
  readonly horse: string;
  readonly stall: string | null;
  readonly tack: string | null;
  readonly ramp: number;
  readonly lessons: readonly string[];
  /** Latest end of the feet check that leaves the barn's usual time to prepare a stand-in; null: no feet check. */
  readonly feetBy: number | null;
  readonly stages: readonly PaperStage[];
  readonly after: readonly { readonly stage: AfterStage; readonly done: boolean }[];
  readonly pulled: boolean;
  readonly hasCautions: boolean;
};

export type PaperCaution = { readonly horse: string; readonly caution: Caution };

export type Paper = {
  readonly lessons: readonly PaperLesson[];
  /** By ramp time. */
  readonly horses: readonly PaperHorse[];
  readonly cautions: readonly PaperCaution[];
};

export function paperOf(board: Board): Paper {
  const { barn, day } = board;
  const person = (id: string | null): string | null =>
    id === null ? null : ((own(barn.volunteers, id) ?? own(barn.staff, id))?.name ?? null);
  const lessons = Object.values(day.lessons)
    .filter((lesson) => !lesson.cancelled)
    .sort((a, b) => a.start - b.start || (a.id < b.id ? -1 : 1))
    .map((lesson): PaperLesson => ({
      id: lesson.id,
      name: lesson.name,
      start: lesson.start,
      end: lessonEnd(lesson),
      arena: own(barn.arenas, lesson.arena ?? '')?.name ?? null,
      instructor: person(lesson.instructor),
      places: lesson.places
        .filter((place) => !place.cancelled)
        .map((place) => ({
          id: place.id,
          rider: own(barn.riders, place.rider ?? '')?.callName ?? null,
          ...namesOf(board, place.horse, place.tack),
          leader: person(place.leader),
          sideWalkers: place.sideWalkers.flatMap((id) => person(id) ?? []),
          ramp: placeRamp(day, lesson, place, barn.rules),
        })),
    }));
  const horses = Object.values(day.preps)
    .flatMap((prep) => horseRow(board, prep) ?? [])
    .sort((a, b) => a.ramp - b.ramp || (a.prep < b.prep ? -1 : 1));
  const used = [
    ...new Set(Object.values(day.preps).map((prep) => (prep.places.length > 0 ? prep.horse : ''))),
  ];
  const cautions = used
    .flatMap((id) => own(barn.horses, id) ?? [])
    .sort((a, b) => (a.name < b.name ? -1 : 1))
    .flatMap((horse) => horse.cautions.map((caution) => ({ horse: horse.name, caution })));
  return { lessons, horses, cautions };
}

function namesOf(
  { barn }: Board,
  horseId: string | null,
  tackId: string | null,
): { horse: string | null; stall: string | null; tack: string | null } {
  const horse = own(barn.horses, horseId ?? '');
  return {
    horse: horse?.name ?? null,
    stall: own(barn.stalls, horse?.stall ?? '')?.name ?? null,
    tack: horse?.tackLists.find((list) => list.id === tackId)?.name ?? null,
  };
}

function horseRow(board: Board, prep: Prep): PaperHorse | null {
  const { barn, day } = board;
  const { rules } = barn;
  const ramp = rampTime(day, prep, rules);
  const { horse, stall, tack } = namesOf(board, prep.horse, prep.tack);
  if (ramp === null || horse === null) return null;
  const asked = stagesOf(prep);
  const { feet, coat, tack: tacking } = rules.stageMinutes;
  return {
    prep: prep.id,
    horse,
    stall,
    tack,
    ramp,
    lessons: lessonsOf(day, prep).map((lesson) => lesson.name),
    feetBy: asked.includes('feet') ? ramp - (feet + coat + tacking) * MINUTE_MS : null,
    stages: STAGES.map((stage) => {
      const mark = asked.includes(stage) ? markOf(prep, stage) : undefined;
      return {
        stage,
        neededBy: asked.includes(stage) ? neededByRule(day, prep, stage, rules) : null,
        done: mark !== undefined,
        at: mark && !mark.untimed ? mark.at : null,
      };
    }),
    after: rules.afterStages.map((stage) => ({ stage, done: markOf(prep, stage) !== undefined })),
    pulled: isPulled(barn, prep.horse),
    hasCautions: (own(barn.horses, prep.horse)?.cautions.length ?? 0) > 0,
  };
}

export const PAPER_SIZES = ['A4', 'Letter'] as const;
export type PaperSize = (typeof PAPER_SIZES)[number];

/** Height between the margins, mm (ISO 216 A4 297, US Letter 279.4, less 10 above and below), and one to spare. */
const PAGE_MM: Readonly<Record<PaperSize, number>> = { A4: 276, Letter: 258 };
/** What stands above and below the rows of an aisle page, and a row one can write in, mm. As in `paper.css`. */
const AISLE_FRAME_MM = 52;
const AISLE_ROW_MM = 15;
/** The same for a page of cautions: a line of text, with some 90 letters in it. */
const CAUTION_FRAME_MM = 40;
const CAUTION_LINE_MM = 5;
const CAUTION_GAP_MM = 3;
const LETTERS_A_LINE = 90;

export type PaperPage =
  | { readonly kind: 'aisle'; readonly rows: readonly PaperHorse[] }
  | { readonly kind: 'lesson'; readonly lesson: PaperLesson }
  | { readonly kind: 'cautions'; readonly rows: readonly PaperCaution[] };

/** The pages in the order they are wanted: for the aisle, the horses' cautions, then a page a lesson. */
export function pagesOf({ lessons, horses, cautions }: Paper, size: PaperSize): PaperPage[] {
  const rowsAPage = Math.floor((PAGE_MM[size] - AISLE_FRAME_MM) / AISLE_ROW_MM);
  const room = PAGE_MM[size] - CAUTION_FRAME_MM;
  return [
    ...broken(horses, rowsAPage, () => 1).map((rows) => ({ kind: 'aisle' as const, rows })),
    ...broken(cautions, room, cautionMm).map((rows) => ({ kind: 'cautions' as const, rows })),
    ...lessons.map((lesson) => ({ kind: 'lesson' as const, lesson })),
  ];
}

function cautionMm({ horse, caution }: PaperCaution): number {
  // Words are not broken, so a line is not always full.
  const lines = Math.ceil(((horse.length + caution.text.length + 12) * 1.1) / LETTERS_A_LINE);
  return lines * CAUTION_LINE_MM + CAUTION_GAP_MM;
}

/** In order, as many on a page as there is room for; at least one. */
function broken<T>(all: readonly T[], room: number, size: (one: T) => number): T[][] {
  const pages: T[][] = [];
  let left = 0;
  for (const one of all) {
    if (pages.length === 0 || size(one) > left) {
      pages.push([]);
      left = room;
    }
    pages.at(-1)?.push(one);
    left -= size(one);
  }
  return pages;
}
