/**
 * Free and total float, as in the critical path method (Kelley and Walker 1959), in the plan where everything takes its
 * usual time. Two things are different from a building site, so the common routine does not fit: every horse has a
 * date of its own rather than the project one, and what is asked is how long a whole prep, or a person, can be delayed,
 * with their later pieces giving way among themselves.
 */
import type { Duty } from './model.ts';

/** One piece as planned. Times in ms from any zero. */
export type Planned = {
  readonly id: string;
  readonly work: string;
  readonly horse: string;
  readonly by: string;
  readonly start: number;
  readonly end: number;
  /** Of `start`: the moment needed to get there. The piece waits for nothing else since `start − lead`. */
  readonly lead: number;
  /** Latest good end by the horse's ramp time. */
  readonly neededBy: number;
  /** When the horse must be at the ramp, on the last piece of a work; null on the others. */
  readonly rampTime: number | null;
};

/** A person's duties and when they go home, from the same zero. */
export type Bounds = { readonly duties: readonly Duty[]; readonly until: number | null };

export type Float = {
  /** Delay that makes no horse late and keeps nobody from a lesson or from going home; negative: too late already. */
  readonly totalMs: number;
  /** Delay that moves nothing outside. */
  readonly freeMs: number;
};

export type Floats = {
  readonly ofWork: ReadonlyMap<string, Float>;
  readonly ofPerson: ReadonlyMap<string, Float>;
  /** Total float of each piece. */
  readonly ofPiece: ReadonlyMap<string, number>;
};

/** `plan`: pieces in any order, consistent: in a work and for a person, one after the other. */
export function floats(plan: readonly Planned[], boundsOf: (person: string) => Bounds): Floats {
  const works = chains(plan, (piece) => piece.work);
  const people = chains(plan, (piece) => piece.by);
  const nextInWork = followers(works);
  const nextOfPerson = followers(people);

  const latest = new Map<string, number>();
  const latestStart = (piece: Planned | undefined): number =>
    piece ? (latest.get(piece.id) ?? Infinity) - (piece.end - piece.start) - piece.lead : Infinity;
  for (const piece of plan.toSorted((a, b) => b.start - a.start || b.end - a.end)) {
    latest.set(
      piece.id,
      Math.min(
        piece.neededBy,
        mustStopBy(piece, boundsOf(piece.by)),
        latestStart(nextInWork.get(piece.id)),
        latestStart(nextOfPerson.get(piece.id)),
      ),
    );
  }
  const ofPiece = new Map(plan.map((piece) => [piece.id, (latest.get(piece.id) ?? Infinity) - piece.end]));

  return {
    ofWork: each(works, (piece) => outside(nextOfPerson.get(piece.id), (next) => next.work !== piece.work)),
    ofPerson: each(people, (piece) => outside(nextInWork.get(piece.id), (next) => next.by !== piece.by)),
    ofPiece,
  };

  function each(
    groups: ReadonlyMap<string, readonly Planned[]>,
    movedBy: (piece: Planned) => number,
  ): Map<string, Float> {
    return new Map([...groups].map(([id, chain]) => [id, floatOf(chain, movedBy)]));
  }

  /** `movedBy`: end of a piece beyond which it moves something outside its chain. */
  function floatOf(chain: readonly Planned[], movedBy: (piece: Planned) => number): Float {
    let gaps = 0;
    let freeMs = Infinity;
    for (const [i, piece] of chain.entries()) {
      const before = chain[i - 1];
      if (before) gaps += piece.start - piece.lead - before.end;
      const room = Math.min(
        mustStopBy(piece, boundsOf(piece.by)),
        piece.rampTime ?? Infinity,
        movedBy(piece),
      );
      freeMs = Math.min(freeMs, gaps + room - piece.end);
    }
    const [first] = chain;
    return { totalMs: first ? (ofPiece.get(first.id) ?? Infinity) : Infinity, freeMs: Math.max(0, freeMs) };
  }
}

function outside(next: Planned | undefined, isOutside: (next: Planned) => boolean): number {
  return next && isOutside(next) ? next.start - next.lead : Infinity;
}

/** Start of the next duty after the piece began, unless it is with this very horse, or going home. */
function mustStopBy(piece: Planned, { duties, until }: Bounds): number {
  const duty = duties
    .filter(({ from, horse }) => from >= piece.start && horse !== piece.horse)
    .reduce((least, { from }) => Math.min(least, from), Infinity);
  return Math.min(duty, until ?? Infinity);
}

/** Each group's pieces by start. */
function chains(plan: readonly Planned[], keyOf: (piece: Planned) => string): Map<string, Planned[]> {
  const groups = new Map<string, Planned[]>();
  for (const piece of plan.toSorted((a, b) => a.start - b.start || a.end - b.end)) {
    const group = groups.get(keyOf(piece));
    if (group) group.push(piece);
    else groups.set(keyOf(piece), [piece]);
  }
  return groups;
}

function followers(groups: ReadonlyMap<string, readonly Planned[]>): Map<string, Planned> {
  const next = new Map<string, Planned>();
  for (const chain of groups.values()) {
    for (const [i, piece] of chain.entries()) {
      const follower = chain[i + 1];
      if (follower) next.set(piece.id, follower);
    }
  }
  return next;
}
