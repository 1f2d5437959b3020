/**
 * From what was tapped in a day to what can be learned from it. Which stages tell how long they took is decided in
 * `durations/observation.ts`; here is how taps become what it decides on.
 *
 * - An op that was taken back counts for nothing, nor does what came of it.
 * - A stage begins with the first tap "on it". Without one: with the end of the stage before, when the same person
 *   ended it on the same horse and tapped nothing else in between.
 * - It ends with the earliest tap that finished it.
 * - Whoever starts or finishes something else in between has left it, until they tap "on it" again. So has whoever is
 *   due in a lesson, until it ends; unless it is this very horse's lesson. A horse pulled in between leaves its end
 *   unclear.
 * - Stages finished in one tap are told apart by nothing, and teach nothing.
 */
import { own } from '../barn/basics.ts';
import { isAfterStage, type Stage, type WorkStage } from '../barn/stage.ts';
import type { Barn } from '../barn/barn.ts';
import type { Board, Day } from '../day/board.ts';
import { pieceId } from '../day/pieces.ts';
import type { Entry } from '../day/ops.ts';
import { horseFreeFrom, rampTime } from '../day/preps.ts';
import { dutiesOn } from '../day/roles.ts';
import { MINUTE_MS, SECOND_MS } from '../time/units.ts';
import { observe, type Seen, type StageRecord } from './durations/observation.ts';
import {
  learnFrom,
  NO_HISTORY,
  type Changeover,
  type History,
  type Learned,
  type Share,
  type TakeUp,
} from './learned.ts';
import type { Duty } from './model.ts';

/** A longer gap between two stages was spent waiting, not going. Common practice, no source. */
const LONGEST_CHANGEOVER_MS = 4 * MINUTE_MS;
/** Somebody with nothing to do for this long was waiting for the right time. Own choice, no source. */
const LEAST_IDLE_MS = 4 * MINUTE_MS;
/** As in the forecast. */
const WALK_MS_PER_METRE = SECOND_MS / 1.1;

/** The barn as it is now will do for a day long past. */
type DayBoard = Pick<Board, 'barn' | 'day'>;

type Tap = {
  readonly at: number;
  readonly by: string | null;
  readonly prep: string;
  readonly stages: readonly WorkStage[];
  readonly what: 'started' | 'finished';
};

type Arrival = { readonly person: string; readonly at: number };
type Pull = { readonly horse: string; readonly at: number };

export type DayHistory = {
  readonly history: History;
  /** Pieces that were finished or begun and teach nothing, and why. */
  readonly leftOut: readonly {
    readonly piece: string;
    readonly because: Extract<Seen, { kind: 'left-out' }>['because'];
  }[];
};

/** What one day teaches. `board` as it stood at the day's end; `entries`: that day's, in order. */
export function dayHistory(board: DayBoard, entries: readonly Entry[]): DayHistory {
  const { taps, pulls, arrivals, takenBack } = readTaps(ofThisDay(entries));
  const duties = dutiesOf(board);
  const records = recordsOf(board, taps, pulls, takenBack, duties);
  const finished = records.filter(({ record }) => record.finishedMs !== null);
  const seen = records.map(({ piece, record }) => ({ piece, result: observe(record) }));
  return {
    history: {
      observations: seen.flatMap(({ result }) => (result.kind === 'exact' ? [result.observation] : [])),
      changeovers: changeovers(board, taps),
      takeUps: takeUps(board, taps, arrivals),
      unseenStarts: {
        count: finished.filter(({ record }) => record.startedMs === null).length,
        of: finished.length,
      },
      noShows: noShows(board),
    },
    leftOut: seen.flatMap(({ piece, result }) =>
      result.kind === 'left-out' ? [{ piece, because: result.because }] : [],
    ),
  };
}

/** What all these days teach together, for the barn as it is now. */
export function learnFromDays(
  barn: Barn,
  days: readonly { readonly day: Day; readonly entries: readonly Entry[] }[],
): Learned {
  const histories = days.map(({ day, entries }) => dayHistory({ barn, day }, entries).history);
  return learnFrom(barn, histories.reduce(both, NO_HISTORY));
}

function both(a: History, b: History): History {
  return {
    observations: [...a.observations, ...b.observations],
    changeovers: [...a.changeovers, ...b.changeovers],
    takeUps: [...a.takeUps, ...b.takeUps],
    unseenStarts: sum(a.unseenStarts, b.unseenStarts),
    noShows: sum(a.noShows, b.noShows),
  };
}

function sum(a: Share, b: Share): Share {
  return { count: a.count + b.count, of: a.of + b.of };
}

function ofThisDay(entries: readonly Entry[]): readonly Entry[] {
  const opened = entries.findLastIndex((entry) => entry.facts.some((fact) => fact.kind === 'dayOpened'));
  return entries.slice(opened + 1);
}

type Read = {
  readonly taps: readonly Tap[];
  readonly pulls: readonly Pull[];
  readonly arrivals: readonly Arrival[];
  readonly takenBack: readonly Tap[];
};

function readTaps(entries: readonly Entry[]): Read {
  const undone = new Set(
    entries.flatMap((entry) => entry.facts.flatMap((fact) => (fact.kind === 'undone' ? fact.op : []))),
  );
  const taps: Tap[] = [];
  const takenBack: Tap[] = [];
  const pulls: Pull[] = [];
  const arrivals: Arrival[] = [];
  for (const { id, by, at: takenAt, tappedAt, facts } of entries) {
    const at = Math.min(takenAt, tappedAt);
    for (const fact of facts) {
      if (fact.kind === 'horsePulled') {
        if (!undone.has(id)) pulls.push({ horse: fact.horse, at });
        continue;
      }
      if (fact.kind === 'volunteerArrived') arrivals.push({ person: fact.volunteer, at });
      if (fact.kind !== 'stageStarted' && fact.kind !== 'stagesFinished') continue;
      const what = fact.kind === 'stageStarted' ? 'started' : 'finished';
      const named = fact.kind === 'stageStarted' ? [fact.stage] : fact.stages;
      const tap: Tap = { at, by, prep: fact.prep, stages: named, what };
      (undone.has(id) ? takenBack : taps).push(tap);
    }
  }
  return { taps: taps.sort((a, b) => a.at - b.at), pulls, arrivals, takenBack };
}

function recordsOf(
  board: DayBoard,
  taps: readonly Tap[],
  pulls: readonly Pull[],
  takenBack: readonly Tap[],
  duties: ReadonlyMap<string, readonly Duty[]>,
): { piece: string; record: StageRecord }[] {
  const seen = new Map<string, { prep: string; stage: Stage }>();
  for (const tap of [...taps, ...takenBack]) {
    for (const stage of tap.stages)
      if (!isAfterStage(stage)) seen.set(pieceId(tap.prep, stage), { prep: tap.prep, stage });
  }
  return [...seen].flatMap(([piece, { prep, stage }]) => {
    const horse = own(board.day.preps, prep)?.horse;
    if (horse === undefined) return [];
    const isThis = (tap: Tap): boolean => tap.prep === prep && tap.stages.includes(stage);
    const finish = taps.find((tap) => tap.what === 'finished' && isThis(tap)) ?? null;
    const starts = taps.filter(
      (tap) => tap.what === 'started' && isThis(tap) && tap.at <= (finish?.at ?? Infinity),
    );
    const people = [...starts.map((tap) => tap.by), finish?.by ?? null].flatMap((by) => by ?? []);
    const startedMs = starts[0]?.at ?? null;
    const wentOnFromMs = finish && wentOnFrom(finish, taps);
    const from = startedMs ?? wentOnFromMs;
    const record: StageRecord = {
      stage,
      horse,
      people,
      startedMs,
      finishedMs: finish?.at ?? null,
      wentOnFromMs,
      pauses:
        finish && from !== null
          ? [
              ...absences(people[0], prep, stage, taps, from, finish.at),
              ...lessonsBetween(duties.get(people[0] ?? '') ?? [], horse, from, finish.at),
              ...pulls
                .filter((pull) => pull.horse === horse && pull.at >= from && pull.at <= finish.at)
                .map((pull) => ({ fromMs: pull.at, toMs: null })),
            ]
          : [],
      otherEndsMs: taps
        .filter((tap) => tap.what === 'finished' && tap.prep === prep)
        .flatMap((tap) => tap.stages.filter((other) => other !== stage).map(() => tap.at)),
      undone: !finish && takenBack.some((tap) => tap.what === 'finished' && isThis(tap)),
    };
    return [{ piece, record }];
  });
}

/** When the finisher's tap before this one ended another stage of the same horse: then. */
function wentOnFrom(finish: Tap, taps: readonly Tap[]): number | null {
  const theirs = taps.filter((tap) => tap.by !== null && tap.by === finish.by);
  const before = theirs[theirs.indexOf(finish) - 1];
  return before?.what === 'finished' && before.prep === finish.prep ? before.at : null;
}

/** Off to something else, until the tap that says they are back. */
function absences(
  person: string | undefined,
  prep: string,
  stage: Stage,
  taps: readonly Tap[],
  from: number,
  until: number,
): { fromMs: number; toMs: number | null }[] {
  const pauses: { fromMs: number; toMs: number | null }[] = [];
  let away: number | null = null;
  for (const tap of taps) {
    if (person === undefined || tap.by !== person || tap.at <= from || tap.at >= until) continue;
    const isBack = tap.what === 'started' && tap.prep === prep && tap.stages.includes(stage);
    if (isBack && away !== null) pauses.push({ fromMs: away, toMs: tap.at });
    away = isBack ? null : (away ?? tap.at);
  }
  return away === null ? pauses : [...pauses, { fromMs: away, toMs: null }];
}

function lessonsBetween(
  duties: readonly Duty[],
  horse: string,
  from: number,
  until: number,
): { fromMs: number; toMs: number | null }[] {
  return duties
    .filter((duty) => duty.horse !== horse && duty.from < until && duty.until > from)
    .map((duty) => ({ fromMs: duty.from, toMs: duty.until }));
}

function dutiesOf(board: DayBoard): Map<string, Duty[]> {
  return new Map(
    [...Map.groupBy(dutiesOn(board, null), (duty) => duty.volunteer)].map(([id, duties]) => [
      id,
      duties.map(({ from, until, place }): Duty => ({ from, until, horse: place.horse })),
    ]),
  );
}

/** From each finished stage to the same person's next start, where nothing was tapped in between; less the walk. */
function changeovers({ barn, day }: DayBoard, taps: readonly Tap[]): Changeover[] {
  const horseOf = (tap: Tap): string | undefined => own(day.preps, tap.prep)?.horse;
  const metresOf = (horse: string): number =>
    own(barn.stalls, own(barn.horses, horse)?.stall ?? '')?.metres ?? 0;
  const last = new Map<string, Tap>();
  return taps.flatMap((tap) => {
    if (tap.by === null) return [];
    const before = last.get(tap.by);
    last.set(tap.by, tap);
    if (before?.what !== 'finished' || tap.what !== 'started') return [];
    // Nobody hurries from one horse that is put away to the next.
    if ([...before.stages, ...tap.stages].some(isAfterStage)) return [];
    const [from, to] = [horseOf(before), horseOf(tap)];
    if (from === undefined || to === undefined) return [];
    const walkMs = Math.abs(metresOf(from) - metresOf(to)) * WALK_MS_PER_METRE;
    const ms = Math.max(0, Math.round(tap.at - before.at - walkMs));
    return ms > LONGEST_CHANGEOVER_MS ? [] : [{ sameHorse: from === to, ms }];
  });
}

/**
 * How long before its ramp time somebody takes up a horse when nothing keeps them: starts on a horse that had stood
 * ready for it, by somebody who had been here with nothing else to do for some minutes.
 */
function takeUps(board: DayBoard, taps: readonly Tap[], arrivals: readonly Arrival[]): TakeUp[] {
  const { barn, day } = board;
  const duties = dutiesOf(board);
  return taps.flatMap((tap, i) => {
    const { by, at, what } = tap;
    const prep = own(day.preps, tap.prep);
    const ramp = prep ? rampTime(day, prep, barn.rules) : null;
    if (what !== 'started' || by === null || !prep || ramp === null || prep.kind !== 'full') return [];
    if (tap.stages.some(isAfterStage)) return [];
    const since = at - LEAST_IDLE_MS;
    const kept =
      taps.slice(0, i).some((other) => (other.by === by || other.prep === tap.prep) && other.at > since) ||
      !arrivals.some((arrival) => arrival.person === by && arrival.at <= since) ||
      (duties.get(by) ?? []).some((duty) => duty.from < at && duty.until > since) ||
      (horseFreeFrom(day, prep) ?? -Infinity) > since;
    return kept ? [] : [{ person: by, ms: Math.round(ramp - at) }];
  });
}

/** Of those whose hours were given for today, who never came. */
function noShows({ day }: DayBoard): Share {
  const expected = Object.values(day.hands).filter(({ presence }) => presence.from !== null);
  const missing = expected.filter(
    ({ presence }) => presence.state === 'expected' || presence.state === 'notComing',
  );
  return { count: missing.length, of: expected.length };
}
