/**
 * Plays the work forward once, as the people would do it who know nothing of how long things will take today.
 *
 * Whoever is free first goes on: with the first piece of their own queue that can be started; else with the most urgent
 * piece that is nobody's, or whose owner cannot be counted on to do it before going home; else they wait for whichever
 * comes first. Nobody starts what usually would not be done before they are due in a lesson or go home, save on the
 * very horse they are to go with; what turns out longer is finished all the same. From one piece to the next a person
 * needs a moment, and the walk.
 */
import { MINUTE_MS } from '../../time/units.ts';
import { NOBODY, NONE, onItFor, usualMs, type Shop } from './shop.ts';

/** How long the pieces take this time. Both ms; Infinity: it will not be done today. */
export type Lengths = {
  readonly whole: (p: number, w: number) => number;
  /** Of a piece under way. */
  readonly left: (p: number, w: number) => number;
  /** Of the piece `w` may have begun without a tap; Infinity or left out: they have not. */
  readonly unseenLeft?: (p: number, w: number) => number;
  /** Whether `w` is here or comes; left out: all do. */
  readonly comes?: (w: number) => boolean;
};

/** Work of somebody who does not come goes to others this long after they were expected. Own choice, no source. */
const GIVEN_AWAY_AFTER_MS = 15 * MINUTE_MS;

/** One playing, overwritten by the next. Times ms after now; Infinity and NOBODY: not today. */
export class Play {
  readonly start: Float64Array;
  readonly end: Float64Array;
  readonly by: Int32Array;
  /** The moment needed before it, within `start`: the person was free and the horse there so much earlier. */
  readonly lead: Float64Array;

  readonly #shop: Shop;
  /** Per work: its next piece, and from when it can be worked on. */
  readonly #head: Int32Array;
  readonly #ready: Float64Array;
  /** Works whose next piece is anybody's to take; for each who would be there first, and when. */
  readonly #pool: Int32Array;
  #poolSize = 0;
  readonly #inPool: Uint8Array;
  readonly #claimBy: Int32Array;
  readonly #claimAt: Float64Array;
  /** Whoever claimed it is off to something else: nobody is there before `claimAt`, and who will be is not known. */
  readonly #isStale: Uint8Array;
  readonly #clock: Float64Array;
  readonly #lastWork: Int32Array;
  /** What each worker would take next of their own, and when they could begin. */
  readonly #offer: Int32Array;
  readonly #offerAt: Float64Array;
  /** Not given to them, but for the lesson they have a part in. */
  readonly #isHelp: Uint8Array;

  constructor(shop: Shop) {
    const { pieceCount, workCount, workerCount } = shop;
    this.#shop = shop;
    this.start = new Float64Array(pieceCount);
    this.end = new Float64Array(pieceCount);
    this.lead = new Float64Array(pieceCount);
    this.by = new Int32Array(pieceCount);
    this.#head = new Int32Array(workCount);
    this.#ready = new Float64Array(workCount);
    this.#pool = new Int32Array(workCount);
    this.#inPool = new Uint8Array(workCount);
    this.#claimBy = new Int32Array(workCount);
    this.#claimAt = new Float64Array(workCount);
    this.#isStale = new Uint8Array(workCount);
    this.#clock = new Float64Array(workerCount);
    this.#lastWork = new Int32Array(workerCount);
    this.#offer = new Int32Array(workerCount);
    this.#offerAt = new Float64Array(workerCount);
    this.#isHelp = new Uint8Array(workerCount);
  }

  run(lengths: Lengths): void {
    this.#reset(lengths);
    const { workerCount, urgency } = this.#shop;
    for (let w = 0; w < workerCount; w += 1) this.#choose(w);
    for (;;) {
      let soonest = Infinity;
      let next = NOBODY;
      for (let w = 0; w < workerCount; w += 1) {
        const at = this.#offerAt[w]!;
        if (at > soonest || at === Infinity) continue;
        if (at === soonest && this.#isHelp[w]! >= this.#isHelp[next]!) continue;
        soonest = at;
        next = w;
      }
      let claimed = NONE;
      for (let i = 0; i < this.#poolSize; i += 1) {
        const j = this.#pool[i]!;
        const at = this.#claimAt[j]!;
        if (at > soonest || at === Infinity) continue;
        // Their own work first; of nobody's, the most urgent.
        if (at === soonest && claimed === NONE) continue;
        if (at === soonest && urgency[this.#head[j]!]! >= urgency[this.#head[claimed]!]!) continue;
        soonest = at;
        claimed = j;
      }
      if (claimed !== NONE) {
        if (this.#isStale[claimed]! === 1) this.#claim(claimed);
        else this.#take(this.#claimBy[claimed]!, this.#head[claimed]!, soonest, lengths);
      } else if (next !== NOBODY) this.#take(next, this.#offer[next]!, soonest, lengths);
      else return;
    }
  }

  #reset(lengths: Lengths): void {
    const { firstOf, workCount, workerCount, freeAt, from, onIt, workOf, unseen, unseenFor } = this.#shop;
    this.start.fill(Infinity);
    this.end.fill(Infinity);
    this.lead.fill(0);
    this.by.fill(NOBODY);
    this.#clock.set(from);
    this.#lastWork.fill(NONE);
    this.#ready.set(freeAt);
    this.#inPool.fill(0);
    this.#poolSize = 0;
    for (let w = 0; w < workerCount; w += 1) if (lengths.comes?.(w) === false) this.#clock[w] = Infinity;
    for (let j = 0; j < workCount; j += 1) {
      const p = firstOf[j]!;
      this.#head[j] = p;
      const w = p < firstOf[j + 1]! ? onIt[p]! : NOBODY;
      if (w !== NOBODY) this.#begun(p, w, -onItFor(this.#shop, p), lengths.left(p, w));
    }
    for (let w = 0; w < workerCount; w += 1) {
      const p = unseen[w]!;
      if (p === NONE || this.#head[workOf[p]!]! !== p) continue;
      const left = lengths.unseenLeft?.(p, w) ?? Infinity;
      if (left < Infinity) this.#begun(p, w, -unseenFor[w]!, left);
    }
    for (let j = 0; j < workCount; j += 1) this.#offerToAll(j);
  }

  #begun(p: number, w: number, start: number, end: number): void {
    const j = this.#shop.workOf[p]!;
    this.by[p] = w;
    this.start[p] = start;
    this.end[p] = end;
    this.#ready[j] = end;
    this.#clock[w] = Math.max(this.#clock[w]!, end);
    this.#lastWork[w] = j;
    this.#head[j] = p + 1;
  }

  /** Puts work `j`'s next piece before everybody, when it is nobody's. */
  #offerToAll(j: number): void {
    const p = this.#head[j]!;
    if (p === this.#shop.firstOf[j + 1]! || this.#inPool[j]! === 1 || this.#isCountedOn(p)) return;
    const absent = this.#shop.owner[p]!;
    if (absent !== NOBODY && this.#clock[absent]! === Infinity) {
      this.#ready[j] = Math.max(this.#ready[j]!, this.#shop.from[absent]! + GIVEN_AWAY_AFTER_MS);
    }
    this.#inPool[j] = 1;
    this.#pool[this.#poolSize++] = j;
    this.#isStale[j] = 1;
    this.#claimAt[j] = this.#ready[j]!;
  }

  /** Whether the person a piece is given to is cleared for it and there long enough. */
  #isCountedOn(p: number): boolean {
    const w = this.#shop.owner[p]!;
    if (w === NOBODY || !this.#isCleared(p, w)) return false;
    return this.#slot(w, p, Math.max(this.#clock[w]!, this.#ready[this.#shop.workOf[p]!]!)) < Infinity;
  }

  #isCleared(p: number, w: number): boolean {
    return this.#shop.cleared[p * this.#shop.workerCount + w]! === 1;
  }

  #take(w: number, p: number, at: number, lengths: Lengths): void {
    const { workOf, workerCount, firstOf, owner, queueOf, queue, until } = this.#shop;
    const j = workOf[p]!;
    const lead = this.#changeTo(w, j);
    const start = at + lead;
    const end = start + lengths.whole(p, w);
    this.by[p] = w;
    this.lead[p] = lead;
    this.start[p] = start;
    this.end[p] = end;
    this.#clock[w] = end;
    this.#lastWork[w] = j;
    this.#ready[j] = end;
    this.#head[j] = p + 1;
    if (this.#inPool[j]! === 1) this.#leavePool(j);
    for (let i = 0; i < this.#poolSize; i += 1) {
      if (this.#claimBy[this.#pool[i]!]! === w) this.#isStale[this.#pool[i]!] = 1;
    }
    // A clock that moved on may leave no time for what else is theirs.
    if (until[w]! !== Infinity) {
      for (let i = queueOf[w]!; i < queueOf[w + 1]!; i += 1) {
        const other = queue[i]!;
        if (this.#head[workOf[other]!]! === other) this.#offerToAll(workOf[other]!);
      }
    }
    this.#offerToAll(j);
    for (let v = 0; v < workerCount; v += 1) if (v === w || this.#offer[v]! === p) this.#choose(v);
    if (p + 1 === firstOf[j + 1]!) return;
    const theirs = owner[p + 1]!;
    if (theirs !== NOBODY && theirs !== w) this.#choose(theirs);
    this.#askHelpers(j);
  }

  #leavePool(j: number): void {
    this.#inPool[j] = 0;
    let at = 0;
    while (this.#pool[at]! !== j) at += 1;
    this.#pool[at] = this.#pool[--this.#poolSize]!;
  }

  /** Who would be first at work `j`'s next piece. */
  #claim(j: number): void {
    const p = this.#head[j]!;
    const ready = this.#ready[j]!;
    let soonest = Infinity;
    for (let w = 0; w < this.#shop.workerCount; w += 1) {
      const at = Math.max(this.#clock[w]!, ready);
      if (at >= soonest || !this.#isCleared(p, w)) continue;
      const slot = this.#slot(w, p, at);
      if (slot >= soonest) continue;
      soonest = slot;
      this.#claimBy[j] = w;
    }
    this.#claimAt[j] = soonest;
    this.#isStale[j] = 0;
  }

  /** What `w` would take next of their own: whichever can be begun first, as given. */
  #choose(w: number): void {
    const { queueOf, queue, workOf } = this.#shop;
    const free = this.#clock[w]!;
    let soonest = Infinity;
    this.#offer[w] = NONE;
    this.#isHelp[w] = 0;
    for (let i = queueOf[w]!; i < queueOf[w + 1]!; i += 1) {
      const p = queue[i]!;
      const j = workOf[p]!;
      if (this.#head[j]! !== p || !this.#isCleared(p, w)) continue;
      const at = this.#slot(w, p, Math.max(free, this.#ready[j]!));
      if (at >= soonest) continue;
      soonest = at;
      this.#offer[w] = p;
    }
    this.#offerAt[w] = soonest;
    this.#helpAny(w);
  }

  /** Works whose lessons `w` has a part in, for the horse that is not ready when it should be. */
  #helpAny(w: number): void {
    const { helpsOf } = this.#shop;
    if (helpsOf[w]! === helpsOf[w + 1]!) return;
    const { helps } = this.#shop;
    for (let i = helpsOf[w]!; i < helpsOf[w + 1]!; i += 1) this.#help(helps[i]!);
  }

  #askHelpers(j: number): void {
    const { helperOf } = this.#shop;
    for (let h = helperOf[j]!; h < helperOf[j + 1]!; h += 1) this.#help(h);
  }

  /** Whoever is to lead a horse or walk beside it helps to make it ready, whoever the piece was given to. */
  #help(h: number): void {
    const { helper, helpFrom, helpUntil, helpWork, firstOf } = this.#shop;
    const w = helper[h]!;
    const j = helpWork[h]!;
    const p = this.#head[j]!;
    if (p === firstOf[j + 1]!) return;
    const at = Math.max(this.#clock[w]!, this.#ready[j]!, helpFrom[h]!);
    if (at >= helpUntil[h]! || at >= this.#offerAt[w]! || !this.#isCleared(p, w)) return;
    if (usualMs(this.#shop, p, w) === Infinity) return;
    this.#offer[w] = p;
    this.#offerAt[w] = at;
    this.#isHelp[w] = 1;
  }

  #changeTo(w: number, j: number): number {
    const last = this.#lastWork[w]!;
    const { workCount, sameHorseMs, change } = this.#shop;
    return last === j ? sameHorseMs : change[(last === NONE ? workCount : last) * workCount + j]!;
  }

  /** First moment from `at` on with room for the piece, before duties and going home; Infinity: none today. */
  #slot(w: number, p: number, at: number): number {
    const { workOf, until, dutyOf, dutyFrom, dutyUntil, dutyHorse, horseOf } = this.#shop;
    const j = workOf[p]!;
    const needs = this.#changeTo(w, j) + usualMs(this.#shop, p, w);
    let start = Math.max(at, this.#shop.takeUpAt[j * this.#shop.workerCount + w]!);
    for (let d = dutyOf[w]!; d < dutyOf[w + 1]!; d += 1) {
      if (start + needs <= dutyFrom[d]! || start >= dutyUntil[d]!) continue;
      if (dutyHorse[d]! === horseOf[j]!) continue;
      start = dutyUntil[d]!;
    }
    return start + needs > until[w]! || needs === Infinity ? Infinity : start;
  }
}
