/** One horse for one place, by every rule that asks about the two alone: holds, findings, tack, rider, load. */
import { own } from '../../barn/basics.ts';
import type { Horse, TackList } from '../../barn/horse.ts';
import type { Rider } from '../../barn/people.ts';
import { STAGES } from '../../barn/stage.ts';
import { hennekeScore } from '../../care/condition.ts';
import type { AdviceLevel } from '../../care/findingRules.ts';
import { judgeLoad, type LoadVerdict } from '../../care/load.ts';
import type { Board } from '../../day/board.ts';
import { adviceFor, openFindings } from '../../day/findings.ts';
import { farrierOf } from '../../day/views/care.ts';
import { isFinished, isOver } from '../../day/preps.ts';
import type { Against, Block, For } from './model.ts';
import { POINTS } from './rank.ts';
import type { Seat, Seats } from './seats.ts';

export type Pairing = {
  readonly horse: Horse;
  /** The list it would wear; null: it has none. */
  readonly tack: TackList | null;
  readonly blocks: readonly Block[];
  readonly for: readonly For[];
  readonly against: readonly Against[];
  /** Points of the last level, without preparation, which counts once a horse. */
  readonly soft: number;
};

export function judgePair(seats: Seats, seat: Seat, horse: Horse): Pairing {
  const { board } = seats;
  const tack = tackFor(board, seat, horse);
  const rider = seat.place.rider === null ? undefined : own(board.barn.riders, seat.place.rider);
  const gathered: Gathered = { blocks: [], for: [], against: [], soft: 0 };

  weighHolds(board, horse, gathered);
  if (seat.affected && seat.place.horse === horse.id && horse.holds.length === 0) {
    gathered.blocks.push({ code: 'asked-to-replace', unblock: null });
  }
  weighFarrier(board, horse, gathered);
  if (tack === null) gathered.blocks.push({ code: 'no-tack', unblock: { do: 'addTackList' } });
  else weighTack(board, seat, tack, gathered);
  if (seat.place.rider !== null) weighRider(board, rider, horse, tack, gathered);
  weighDay(seats, horse, gathered);
  return { horse, tack, ...gathered };
}

type Gathered = { blocks: Block[]; for: For[]; against: Against[]; soft: number };

/** Overdue shoes or feet forbid only in a barn whose rule says so. */
function weighFarrier(board: Board, horse: Horse, gathered: Gathered): void {
  if (!board.barn.rules.care.farrier.overdueIsOff) return;
  const state = farrierOf(board, horse);
  if (state === null || state.daysUntilDue >= 0) return;
  const days = -state.daysUntilDue;
  gathered.blocks.push({ code: 'farrier-overdue', days, unblock: { do: 'farrierVisit' } });
}

/** The horse's list of the same name as the one the place has now; else its first. Null: it has none. */
export function tackFor(board: Board, seat: Seat, horse: Horse): TackList | null {
  const wanted = wantedTack(board, seat);
  const same = horse.tackLists.find((list) => wanted !== null && sameName(list.name, wanted));
  return same ?? horse.tackLists[0] ?? null;
}

function wantedTack({ barn }: Board, seat: Seat): string | null {
  const now = seat.place.horse === null ? undefined : own(barn.horses, seat.place.horse);
  return now?.tackLists.find((list) => list.id === seat.place.tack)?.name ?? null;
}

function sameName(a: string, b: string): boolean {
  return a.trim().toLowerCase() === b.trim().toLowerCase();
}

function weighTack(board: Board, seat: Seat, tack: TackList, gathered: Gathered): void {
  const wanted = wantedTack(board, seat);
  if (wanted === null) return;
  if (sameName(wanted, tack.name)) {
    gathered.for.push({ code: 'same-tack', tack: tack.name });
    return;
  }
  gathered.against.push({ code: 'other-tack', wanted, tack: tack.name });
  gathered.soft += POINTS.otherTack;
}

/**
 * A hold forbids. So does a finding the barn's rules would keep the horse off work for, until the instructor has
 * released the horse or, where the advice is only to wait for the instructor, somebody of the staff has read it.
 */
function weighHolds(board: Board, horse: Horse, gathered: Gathered): void {
  if (horse.holds.length > 0) {
    const kinds = [...new Set(horse.holds.map((hold) => hold.kind))];
    const wordFrom = kinds.find((kind) => kind === 'vet') ?? kinds.find((kind) => kind === 'farrier') ?? null;
    gathered.blocks.push({ code: 'held', kinds, unblock: { do: 'release', wordFrom } });
  }
  const advice = adviceFor(board, horse.id);
  if (!advice || advice.level === 'clear' || advice.level === 'carry-on') return;
  const unread = openFindings(board, horse.id).filter((note) => note.read.length === 0);
  const { level } = advice;
  if (level === 'wait' && unread.length === 0) {
    gathered.against.push({ code: 'finding-read', level });
    gathered.soft += POINTS.findingRead;
    return;
  }
  gathered.blocks.push({
    code: 'finding',
    level,
    unread: unread.length > 0,
    unblock:
      level === 'wait'
        ? { do: 'readFindings', findings: unread.map((note) => note.id) }
        : { do: 'release', wordFrom: wordFrom(level, advice.whom) },
  });
}

function wordFrom(level: AdviceLevel, whom: string): 'vet' | 'farrier' | null {
  if (whom === 'vet') return 'vet';
  return whom === 'farrier' ? 'farrier' : level === 'call-now' ? 'vet' : null;
}

function weighRider(
  board: Board,
  rider: Rider | undefined,
  horse: Horse,
  tack: TackList | null,
  gathered: Gathered,
): void {
  const known = rider?.private;
  if (known?.notWithHorses.includes(horse.id)) {
    gathered.blocks.push({ code: 'not-with-rider', unblock: null });
  }
  const approved = known?.approvedHorses.includes(horse.id) ?? false;
  if (approved) gathered.for.push({ code: 'approved' });
  else if (known && known.approvedHorses.length > 0) {
    gathered.against.push({ code: 'not-on-approved-list' });
    gathered.soft += POINTS.notOnApprovedList;
  }
  if (tack !== null) weighLoad(board, known, horse, tack, approved, gathered);
}

type KnownRider = NonNullable<Rider['private']>;

function loadOn(
  board: Board,
  rider: KnownRider | undefined,
  horse: Horse,
  tackKg: number | null,
): LoadVerdict {
  const condition = horse.private?.condition ?? null;
  return judgeLoad(board.barn.rules.care, {
    riderKg: rider?.weightKg ?? null,
    riderBalance: rider?.balanced === true ? 'balanced' : 'unbalanced',
    tackKg,
    horseWeight: horse.private?.weight ?? null,
    pony: horse.private?.pony ?? false,
    condition: condition === null ? null : hennekeScore(condition),
    horseLimit: horse.private?.loadLimit ?? null,
  });
}

/**
 * "Cannot say" is never a yes. A missing weight may be waived by the rider's list of approved horses, which an
 * instructor keeps; a weight that cannot be true may not: it is a slip in the records, and put right first.
 */
function weighLoad(
  board: Board,
  rider: KnownRider | undefined,
  horse: Horse,
  tack: TackList,
  approved: boolean,
  gathered: Gathered,
): void {
  const verdict = loadOn(board, rider, horse, tack.kg);
  switch (verdict.kind) {
    case 'fits':
      gathered.for.push({ code: 'load-fits', figures: verdict.figures });
      for (const caution of verdict.cautions) {
        gathered.against.push({ code: 'load-caution', caution });
        gathered.soft += POINTS.loadCaution;
      }
      return;
    case 'does-not-fit': {
      const lighter = lighterTack(board, rider, horse, tack);
      for (const { code, limitKg } of verdict.because) {
        const unblock = code === 'over-limit' ? lighter : null;
        gathered.blocks.push({ code, limitKg, figures: verdict.figures, unblock });
      }
      return;
    }
    case 'cannot-say': {
      const { reason } = verdict;
      if (reason.code === 'bad-figure') {
        gathered.blocks.push({
          code: 'ask-instructor',
          unblock: { do: 'mendRecord', figure: reason.figure },
        });
        return;
      }
      const of = reason.code === 'no-rider-weight' ? 'rider' : 'horse';
      if (!approved) {
        gathered.blocks.push({
          code: 'ask-instructor',
          unblock: { do: 'askInstructor', missing: `${of}-weight` },
        });
        return;
      }
      gathered.against.push({ code: 'weight-unknown', of });
      gathered.soft += POINTS.weightUnknown;
    }
  }
}

/** The heaviest weighed list of this horse that the load would fit with: the least change. */
function lighterTack(board: Board, rider: KnownRider | undefined, horse: Horse, tack: TackList) {
  const fitting = horse.tackLists
    .flatMap((list) => (list.id !== tack.id && list.kg !== null ? [{ list, kg: list.kg }] : []))
    .filter(({ kg }) => loadOn(board, rider, horse, kg).kind === 'fits')
    .sort((a, b) => b.kg - a.kg)[0];
  if (!fitting) return null;
  return { do: 'lighterTack', tack: fitting.list.id, name: fitting.list.name, kg: fitting.kg } as const;
}

function weighDay(seats: Seats, horse: Horse, gathered: Gathered): void {
  const minutes = minutesWorked(seats, horse.id);
  if (minutes === 0) gathered.for.push({ code: 'free-today' });
  else gathered.against.push({ code: 'worked-today', minutes });
  gathered.soft += Math.floor(minutes / 10) * POINTS.tenMinutesWorked;
  const left = prepMinutes(seats, horse.id);
  if (left > 0) gathered.against.push({ code: 'work-left', minutes: left });
  else gathered.for.push({ code: 'nothing-left-to-do' });
}

/** In lessons today, done and to come, as the day stands. */
function minutesWorked(seats: Seats, horse: string): number {
  const lessons = new Map((seats.kept.get(horse) ?? []).map((seat) => [seat.lesson.id, seat.lesson.minutes]));
  return [...lessons.values()].reduce((sum, minutes) => sum + minutes, 0);
}

/** Minutes of preparation, at the barn's pace, that the horse would not need but for standing in. */
export function prepMinutes({ board, now }: Pick<Seats, 'board' | 'now'>, horse: string): number {
  const { barn, day } = board;
  const preps = Object.values(day.preps).filter((prep) => prep.horse === horse);
  if (preps.some((prep) => prep.places.length > 0 && !isOver(day, prep, now))) return 0;
  const idle = preps.find((prep) => prep.places.length === 0 && prep.kind === 'full');
  const open = STAGES.filter((stage) => !idle || !isFinished(idle, stage));
  return Math.round(open.reduce((sum, stage) => sum + barn.rules.stageMinutes[stage], 0));
}
