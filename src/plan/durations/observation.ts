/** Which taps tell how long a stage took, and which do not. */
import type { Stage } from '../../barn/stage.ts';

const MS_PER_MINUTE = 60_000;

/** Stages whose ends lie this close were tapped off together, so neither end is when the work ended. */
const TOGETHER_MS = 30_000;
/** Shorter than this nobody does a stage, longer than that the tap was forgotten. Minutes; own choice, no source. */
const BELIEVABLE_MINUTES = [0.25, 120] as const;

/** One stage seen from start to end. */
export type Observation = {
  readonly stage: Stage;
  readonly horse: string;
  readonly person: string;
  /** Above zero. */
  readonly minutes: number;
};

/** What the day's record knows about one stage of one horse. Times are epoch milliseconds by the hub's clock. */
export interface StageRecord {
  readonly stage: Observation['stage'];
  readonly horse: string;
  /** Everybody who had a hand in it. */
  readonly people: readonly string[];
  /** When somebody tapped that they were on it. */
  readonly startedMs: number | null;
  readonly finishedMs: number | null;
  /** When the same person ended the stage before on the same horse, with nothing else tapped in between. */
  readonly wentOnFromMs: number | null;
  /** Interruptions: off to something else, or handed over. Ends are null while open. */
  readonly pauses: readonly { readonly fromMs: number; readonly toMs: number | null }[];
  /** Ends of other stages of this horse. */
  readonly otherEndsMs: readonly number[];
  readonly undone: boolean;
}

export type Seen =
  | { readonly kind: 'exact'; readonly observation: Observation }
  | {
      readonly kind: 'left-out';
      readonly because:
        | 'undone'
        | 'unfinished'
        | 'no-start'
        | 'nobody-named'
        | 'several-people'
        | 'several-stages-at-once'
        | 'pause-unclear'
        | 'beyond-belief';
    };

/**
 * The rule, first that applies:
 * - undone: left out.
 * - no end: left out; a stage under way is not waited for.
 * - nobody named, or more than one person: left out; the length could not be laid to anybody.
 * - ended within 30 s of another stage of the same horse: left out, both; how the total divides is not known.
 * - start: the tap "on it"; failing that, the end of the stage before, where the same person went straight on. Neither:
 *   left out. It is only known to be shorter than the time since the last known thing, and a bound that loose tells
 *   less than it bends.
 * - pauses with both ends are taken off; a pause with an open end, or one outside the stage: left out.
 * - not between 15 s and 2 h: left out as a forgotten or mistaken tap.
 * - else exact.
 */
export function observe(record: StageRecord): Seen {
  const leftOut = (because: Extract<Seen, { kind: 'left-out' }>['because']): Seen => ({
    kind: 'left-out',
    because,
  });
  const { finishedMs } = record;
  if (record.undone) return leftOut('undone');
  if (finishedMs === null) return leftOut('unfinished');
  const [person, ...others] = new Set(record.people);
  if (person === undefined) return leftOut('nobody-named');
  if (others.length > 0) return leftOut('several-people');
  if (record.otherEndsMs.some((end) => Math.abs(end - finishedMs) <= TOGETHER_MS)) {
    return leftOut('several-stages-at-once');
  }
  const startMs = record.startedMs ?? record.wentOnFromMs;
  if (startMs === null) return leftOut('no-start');
  const pausedMs = pausedWithin(record, startMs, finishedMs);
  if (pausedMs === null) return leftOut('pause-unclear');
  const minutes = (finishedMs - startMs - pausedMs) / MS_PER_MINUTE;
  if (!isBelievable(minutes)) return leftOut('beyond-belief');
  return { kind: 'exact', observation: { stage: record.stage, horse: record.horse, person, minutes } };
}

/** Whether a stage can have taken this many minutes at all. */
export function isBelievable(minutes: number): boolean {
  return minutes >= BELIEVABLE_MINUTES[0] && minutes <= BELIEVABLE_MINUTES[1];
}

function pausedWithin(record: StageRecord, startMs: number, finishedMs: number): number | null {
  let total = 0;
  let lastEnd = startMs;
  for (const { fromMs, toMs } of [...record.pauses].sort((a, b) => a.fromMs - b.fromMs)) {
    if (toMs === null || fromMs < lastEnd || toMs < fromMs || toMs > finishedMs) return null;
    total += toMs - fromMs;
    lastEnd = toMs;
  }
  return total;
}
