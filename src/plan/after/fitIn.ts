/**
 * Who puts which horse away, and when, in the time that preparing for lessons leaves. Preparing is planned first and
 * stands: a stage after a lesson takes only time in which nobody is foreseen to be needed for it. What was given to
 * somebody stays theirs; of the rest, the horse asked for first goes to whoever would be done with it first. Times are
 * the barn's usual ones at the person's pace, so that the same board makes the same plan.
 */
import { isCleared } from '../../barn/stage.ts';
import type {
  AfterForecast,
  AfterPiece,
  AfterPieceForecast,
  AfterWork,
  PlanInput,
  Unplanned,
  Worker,
} from '../model.ts';
import { ownersOf, type Owners } from '../neededBy.ts';

/** A stretch of time that is taken, instants in ms. */
type Taken = { readonly from: number; readonly until: number };
/** Preparing as foreseen: who is on which horse when. */
export type Preparing = Taken & { readonly by: string; readonly horse: string };

/** `lead`: the moment its person needs before it, ms. */
type Run = { readonly by: string; readonly start: number; readonly end: number; readonly lead: number };

/** The work after lessons of `input` around `preparing`, by prep. */
export function fitIn(input: PlanInput, preparing: readonly Preparing[]): Record<string, AfterForecast> {
  return new AfterPlan(input, preparing).made();
}

/** How far one horse is planned. */
type Begun = {
  readonly work: AfterWork;
  /** When it is taken up for its next lesson; Infinity: it has none. */
  readonly takenUp: number;
  readonly pieces: AfterPieceForecast[];
  /** From when its next stage can be done; null: one before it has no end. */
  ready: number | null;
  /** Who has it in hand. */
  last: string | null;
  unplanned: Unplanned | null;
};

class AfterPlan {
  readonly #input: PlanInput;
  readonly #owners: Owners;
  readonly #ofPerson: Map<string, Taken[]>;
  readonly #preparing: Map<string, Taken[]>;

  constructor(input: PlanInput, preparing: readonly Preparing[]) {
    this.#input = input;
    this.#owners = ownersOf(input);
    this.#ofPerson = new Map(input.workers.map((worker) => [worker.id, [...worker.busy]]));
    this.#preparing = Map.groupBy(preparing, ({ horse }) => horse);
    for (const one of preparing) this.#ofPerson.get(one.by)?.push(one);
    for (const { underWay } of input.afterWorks.flatMap(({ pieces }) => pieces)) {
      if (underWay) this.#ofPerson.get(underWay.by)?.push({ from: underWay.since, until: underWay.until });
    }
  }

  /**
   * Stage by stage in the order in which they are asked for, so that all tack comes off before the first is put away; what is
   * under way or given to somebody takes their time first.
   */
  made(): Record<string, AfterForecast> {
    const begun = this.#input.afterWorks.map((work): Begun => ({
      work,
      takenUp: this.#takenUpAt(work),
      pieces: [],
      ready: work.from,
      last: work.ledBy,
      unplanned: null,
    }));
    const isGiven = ({ work }: Begun): boolean => work.pieces.every(({ id }) => this.#owners.has(id));
    for (const some of [begun.filter(isGiven), begun.filter((one) => !isGiven(one))]) {
      const rank = ({ underWay, dueBy }: AfterPiece): number => (underWay ? -Infinity : dueBy);
      const inTurn = some
        .flatMap((one) => one.work.pieces.map((piece) => ({ one, piece })))
        .sort((a, b) => compare(rank(a.piece), rank(b.piece)) || compare(a.one.work.prep, b.one.work.prep));
      for (const { one, piece } of inTurn) this.#next(one, piece);
    }
    return Object.fromEntries(
      begun.map(({ work, ready, unplanned, pieces }) => [
        work.prep,
        { prep: work.prep, done: ready === null ? null : Math.round(ready), unplanned, pieces },
      ]),
    );
  }

  #next(one: Begun, piece: AfterPiece): void {
    const found = one.ready === null ? null : this.#run(piece, one.ready, one.last);
    if (one.ready !== null && !found) one.unplanned = this.#whyNot(piece);
    const run = found && found.end <= one.takenUp ? found : null;
    one.ready = run && one.ready !== null ? Math.max(one.ready, run.end) : null;
    one.pieces.push(this.#said(piece, run));
    if (!run) return;
    this.#ofPerson.get(run.by)?.push({ from: run.start - run.lead, until: run.end });
    one.last = run.by;
  }

  /** When the horse is taken up for its next lesson; Infinity: it has none. */
  #takenUpAt({ horse, prep, from }: AfterWork): number {
    const next = this.#input.works.filter((one) => one.horse === horse && one.prep !== prep);
    const starts = (this.#preparing.get(horse) ?? []).map((one) => one.from);
    return Math.min(
      Infinity,
      ...[...next.map(({ rampTime }) => rampTime), ...starts].filter((at) => at > from),
    );
  }

  /** Null: nobody can be foreseen for it. */
  #run(piece: AfterPiece, ready: number, last: string | null): Run | null {
    const { underWay } = piece;
    if (underWay) return { by: underWay.by, start: underWay.since, end: underWay.until, lead: 0 };
    const owner = this.#input.workers.find(({ id }) => id === this.#owners.get(piece.id));
    const theirs = owner && this.#offer(owner, piece, ready, last);
    if (theirs) return theirs;
    const offers = this.#input.workers.flatMap((worker) => this.#offer(worker, piece, ready, last) ?? []);
    const best = offers.reduce<Run | null>(
      (first, one) => (first && first.end <= one.end ? first : one),
      null,
    );
    // A horse is not left half put away: with nobody else there, whoever it was given to is taken to stay for it.
    return best ?? (owner ? this.#offer({ ...owner, until: null }, piece, ready, last) : null);
  }

  /** The first time this person has for it, before duties, preparing and going home; null: none. */
  #offer(
    { id, clearances, pace, from, until }: Worker,
    piece: AfterPiece,
    ready: number,
    last: string | null,
  ): Run | null {
    if (!isCleared(clearances, piece.asks)) return null;
    const { sameHorseMs, otherHorseMs } = this.#input.learned;
    const lead = id === last ? sameHorseMs : otherHorseMs;
    const needs = lead + piece.lengthMs * pace;
    let at = Math.max(from, ready);
    const taken = (this.#ofPerson.get(id) ?? []).toSorted((a, b) => a.from - b.from);
    for (const one of taken) if (at + needs > one.from && at < one.until) at = one.until;
    return until !== null && at + needs > until ? null : { by: id, start: at + lead, end: at + needs, lead };
  }

  #whyNot({ asks }: AfterPiece): Unplanned {
    const { workers } = this.#input;
    if (workers.length === 0) return 'nobodyHere';
    return workers.some(({ clearances }) => isCleared(clearances, asks)) ? 'nobodyFree' : 'nobodyCleared';
  }

  #said({ id, stage, dueBy, underWay }: AfterPiece, run: Run | null): AfterPieceForecast {
    return {
      id,
      stage,
      neededBy: Math.round(dueBy),
      by: run?.by ?? null,
      given: run !== null && (underWay !== null || run.by === this.#owners.get(id)),
      start: run && Math.round(run.start),
      end: run && Math.round(run.end),
    };
  }
}

function compare<T extends number | string>(a: T, b: T): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
