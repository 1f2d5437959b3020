/**
 * Which horses can stand in. All places that ask for one are settled together, as one change of the day with the least
 * disruption; the options come ranked, with what speaks for and against each, what a person must do from now, and the
 * op that takes it. A person chooses; the instructor has the last word on who rides what.
 */
import { own } from '../../barn/basics.ts';
import type { Rules } from '../../barn/rules.ts';
import type { Board, PlaceRef } from '../../day/board.ts';
import { MINUTE_MS } from '../../time/units.ts';
import { whyNot } from './blocked.ts';
import type {
  Against,
  Change,
  For,
  Readiness,
  ReadyChance,
  SideEffect,
  StandInOption,
  StandIns,
  StandInsTaken,
  Task,
} from './model.ts';
import { compareRank, RISK_MAKES_LATE, riskOf } from './rank.ts';
import { boardAfter } from './readiness.ts';
import { Pairings, search, type Candidate, type Given } from './search.ts';
import { refOf, seatsOf, type Seat, type Seats } from './seats.ts';
import { giveOut } from './work.ts';

/** What `standInsTaken` can hold. */
const MOST_CHANGES = 30;
/** Enough for a day of sixty horses to be settled exactly. */
const MOST_NODES = 4000;
const OPTIONS = 3;
/** How many candidates are judged as a whole: at first, and when that leaves too few options. */
const SHORTLISTS = [8, 32];

export type More = {
  readonly mostNodes?: number;
};

/**
 * Stand-ins for `affected` at `now` (ms). No options: no place can be covered, and `blocked` says why for every horse.
 * Deterministic; never throws. Places that are not ridden today are left out.
 */
export function standIns(
  board: Board,
  now: number,
  affected: readonly PlaceRef[],
  readyChance: ReadyChance,
  more: More = {},
): StandIns {
  const seats = seatsOf(board, now, affected);
  const pairings = new Pairings(seats, readyChance);
  const asking = seats.all.filter((seat) => seat.affected);
  const { found, exact } = settled(seats, pairings, readyChance, asking.length, more.mostNodes ?? MOST_NODES);
  const best = found[0];
  const beside = best ? { ...best.candidate, fact: best.together.fact } : null;
  const blocked = (best?.candidate.left ?? asking).flatMap((seat) =>
    seats.horses.map((horse) => whyNot(seats, pairings, readyChance, seat, horse, beside)),
  );
  return { options: found.map((one) => option(seats, one)), blocked, exact };
}

type Found = { readonly candidate: Candidate; readonly together: Together };

/**
 * Candidates of the search, judged as a whole and put in order by that. Where none of them can stand as a whole, because
 * the hands there are cannot make all its horses ready, those that leave one place more without a horse come next.
 */
function settled(
  seats: Seats,
  pairings: Pairings,
  readyChance: ReadyChance,
  asking: number,
  nodes: number,
): { readonly found: readonly Found[]; readonly exact: boolean } {
  const judge = judgeTogether(seats, readyChance);
  const judged = new Map<string, Found | null>();
  const whole = (candidate: Candidate): Found | null => {
    const key = JSON.stringify(changesOf(candidate));
    const together = judged.has(key) ? null : judge(candidate);
    const found = judged.get(key) ?? (together && { candidate: withRisk(candidate, together), together });
    judged.set(key, found);
    return found;
  };
  let exact = true;
  for (let uncovered = 0; uncovered < asking; uncovered += 1) {
    for (const candidates of SHORTLISTS) {
      const listed = search(seats, pairings, { candidates, uncovered, nodes, changes: MOST_CHANGES });
      exact &&= listed.exact;
      uncovered = Math.max(uncovered, listed.found[0]?.rank.uncovered ?? asking);
      const found = listed.found.flatMap((one) => whole(one) ?? []);
      const isAll = listed.found.length < candidates;
      const isLast = candidates === SHORTLISTS.at(-1);
      if (found.length >= OPTIONS || (found.length > 0 && (isAll || isLast))) {
        found.sort((a, b) => compareRank(a.candidate.rank, b.candidate.rank));
        return { found: found.slice(0, OPTIONS), exact };
      }
      if (isAll) break;
      exact &&= !isLast;
    }
  }
  return { found: [], exact };
}

function withRisk(candidate: Candidate, { risk }: Together): Candidate {
  return { ...candidate, rank: { ...candidate.rank, risk } };
}

type Together = {
  readonly risk: number;
  readonly fact: StandInsTaken;
  readonly tasks: readonly Task[];
  readonly readiness: ReadonlyMap<string, Readiness>;
  readonly sideEffects: readonly SideEffect[];
};

/** The whole change at once: its op, who prepares, and whether anybody is late then. */
function judgeTogether(seats: Seats, readyChance: ReadyChance): (candidate: Candidate) => Together | null {
  const { board, now } = seats;
  return (candidate) => {
    const changes = changesOf(candidate);
    if (changes.length > MOST_CHANGES) return null;
    const placed = boardAfter(board, now, { kind: 'standInsTaken', changes, work: [] });
    const refs = candidate.given.map((one) => refOf(one.seat));
    const { tasks, notGiven } = giveOut(board, placed, now, refs);
    const work = tasks.map(({ lesson, place, to }) => ({ lesson, place, to }));
    const fact: StandInsTaken = { kind: 'standInsTaken', changes, work };

    const readiness = new Map<string, Readiness>();
    let risk = 0;
    for (const { seat, pairing, risk: alone } of candidate.given) {
      const together = readyChance(pairing.horse.id, refOf(seat), fact);
      if (isLate(together)) return null;
      readiness.set(seat.key, together);
      risk += Math.max(alone, riskOf(together, board.barn.rules));
    }
    const late = madeLate(seats, candidate, readyChance, fact);
    const sideEffects = [...late, ...notGiven, ...candidate.left.map(leaves)];
    return { risk: risk + late.length * RISK_MAKES_LATE, fact, tasks, readiness, sideEffects };
  };
}

function isLate({ spareMs }: Readiness): boolean {
  return spareMs !== null && spareMs < 0;
}

function leaves(seat: Seat): SideEffect {
  return { code: 'leaves-place', ...refOf(seat) };
}

/**
 * The changes of the op, each after the one that takes its horse's old place: so a horse is not in two places between
 * them, and keeps what was done on it. A place left without a stand-in is emptied only when its horse goes elsewhere.
 */
function changesOf({ given, left }: Candidate): StandInsTaken['changes'] {
  const goes = new Set(given.map((one) => one.pairing.horse.id));
  const emptied = left
    .filter((seat) => seat.place.horse !== null && goes.has(seat.place.horse))
    .map((seat) => ({ ...refOf(seat), horse: null, tack: null }));
  const ordered: Given[] = [];
  const entered = new Set<Given>();
  const add = (one: Given): void => {
    if (entered.has(one)) return;
    entered.add(one);
    for (const other of given) if (other.seat.place.horse === one.pairing.horse.id) add(other);
    ordered.push(one);
  };
  for (const one of given) add(one);
  const filled = ordered.map(({ seat, pairing }) => ({
    ...refOf(seat),
    horse: pairing.horse.id,
    tack: pairing.tack?.id ?? null,
  }));
  return [...emptied, ...filled];
}

/** Places the option does not change whose horses it makes late. */
function madeLate(
  seats: Seats,
  { given }: Candidate,
  readyChance: ReadyChance,
  fact: StandInsTaken,
): Extract<SideEffect, { code: 'makes-late' }>[] {
  const changed = new Set(given.map((one) => one.seat.key));
  return seats.all.flatMap((seat) => {
    const { horse } = seat.place;
    if (horse === null || !seat.movable || seat.affected || changed.has(seat.key)) return [];
    const before = readyChance(horse, refOf(seat), null).spareMs;
    if (before === null || before < 0) return [];
    const after = readyChance(horse, refOf(seat), fact).spareMs;
    if (after !== null && after >= 0) return [];
    const lateMinutes = after === null ? null : Math.ceil(-after / MINUTE_MS);
    return [{ code: 'makes-late', horse, ...refOf(seat), lateMinutes }];
  });
}

function option(seats: Seats, { candidate, together }: Found): StandInOption {
  const byTime = candidate.given.toSorted((a, b) => seats.all.indexOf(a.seat) - seats.all.indexOf(b.seat));
  return {
    fact: together.fact,
    changes: byTime.map((one) => change(seats, one, candidate, together)),
    tasks: together.tasks.toReversed(),
    sideEffects: together.sideEffects,
    rank: candidate.rank,
  };
}

function change(seats: Seats, { seat, pairing }: Given, { given }: Candidate, together: Together): Change {
  const readiness = together.readiness.get(seat.key) ?? { ready: null, chance: null, spareMs: null };
  const { horse, tack } = pairing;
  const lessons = given.filter((one) => one.pairing.horse.id === horse.id).length;
  const several: For[] = lessons > 1 ? [{ code: 'several-lessons', lessons }] : [];
  const moved: Against[] = seat.affected ? [] : [{ code: 'moves-a-settled-place' }];
  return {
    ...refOf(seat),
    horse: horse.id,
    horseName: horse.name,
    tack: tack?.id ?? '',
    instead:
      seat.place.horse !== null && own(seats.board.barn.horses, seat.place.horse) ? seat.place.horse : null,
    as: seat.affected ? 'standIn' : 'chain',
    readiness,
    for: [...pairing.for, ...several],
    against: [...pairing.against, ...moved, ...timeAgainst(readiness, seats.board.barn.rules)],
  };
}

function timeAgainst({ spareMs, chance }: Readiness, { tightMinutes, certainty }: Rules): Against[] {
  if (spareMs === null) return [{ code: 'ready-unknown' }];
  const tight = spareMs < tightMinutes * MINUTE_MS;
  return [
    ...(tight ? [{ code: 'tight', spareMinutes: Math.floor(spareMs / MINUTE_MS) } as const] : []),
    ...(chance !== null && chance < certainty ? [{ code: 'chance', chance } as const] : []),
  ];
}
