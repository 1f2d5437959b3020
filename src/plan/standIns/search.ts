/**
 * Branch and bound over who takes which place. A place that needs a horse tries every horse; a horse that leaves a
 * settled place for it (it cannot be in both, or would work too much) makes that place need one in turn: chains.
 *
 * Bound: for each lesson with such places, a minimum-cost assignment of all its movable places to horses, where keeping
 * one's horse is free; what couples lessons is left out, so it never exceeds the true cost.
 *
 * Guarantee, while `exact` is true: no set of changes that keeps the rules covers more places, or ranks before the
 * candidates found, by the rules and points that ask about a pair, a lesson or a horse's day; giving a horse less to do
 * never breaks one of them. What everything done together leaves of the time is not known here: see `standIns.ts`.
 */
import { lessonEnd } from '../../day/preps.ts';
import { assign } from './assign.ts';
import type { Rank, Readiness, ReadyChance } from './model.ts';
import { judgePair, prepMinutes, type Pairing } from './pair.ts';
import { costOf, ONE_CHANGE, ONE_UNCOVERED, POINTS, riskOf } from './rank.ts';
import { fitsDay, giveUps, overlap, refOf, type Seat, type Seats } from './seats.ts';

export type Given = { readonly seat: Seat; readonly pairing: Pairing; readonly risk: number };

export type Candidate = {
  readonly given: readonly Given[];
  readonly left: readonly Seat[];
  readonly rank: Rank;
};

export type Limits = {
  /** How many candidates, each with another set of horses coming in. */
  readonly candidates: number;
  /** Places that stay without a horse at the least. */
  readonly uncovered: number;
  /** Nodes after which the search stops with what it has. */
  readonly nodes: number;
  /** Changes one message can hold. */
  readonly changes: number;
};

type Node = {
  readonly given: readonly Given[];
  readonly left: readonly Seat[];
  /** By lesson start. Never empty in a node that is expanded. */
  readonly pending: readonly Seat[];
  /** Where a horse is, for those whose day differs from the board's. */
  readonly days: ReadonlyMap<string, readonly Seat[]>;
  /** Keys of settled places that lost their horse. */
  readonly freed: ReadonlySet<string>;
  readonly rank: Rank;
};

/** Pairings and their readiness, each judged once. */
export class Pairings {
  readonly #seats: Seats;
  readonly #readyChance: ReadyChance;
  readonly #pairs = new Map<string, Map<string, Pairing>>();
  readonly #ready = new Map<string, Readiness>();

  constructor(seats: Seats, readyChance: ReadyChance) {
    this.#seats = seats;
    this.#readyChance = readyChance;
  }

  of(seat: Seat): ReadonlyMap<string, Pairing> {
    const known =
      this.#pairs.get(seat.key) ??
      new Map(this.#seats.horses.map((horse) => [horse.id, judgePair(this.#seats, seat, horse)]));
    this.#pairs.set(seat.key, known);
    return known;
  }

  /** If this change alone were made. */
  readiness(seat: Seat, horse: string): Readiness {
    const key = `${seat.key}/${horse}`;
    const known = this.#ready.get(key) ?? this.#readyChance(horse, refOf(seat), null);
    this.#ready.set(key, known);
    return known;
  }

  /** Null while nobody has asked yet. */
  knownReadiness(seat: Seat, horse: string): Readiness | null {
    return this.#ready.get(`${seat.key}/${horse}`) ?? null;
  }
}

/** Best first. `exact` false: the bound on nodes was reached. */
export function search(
  seats: Seats,
  pairings: Pairings,
  limits: Limits,
): { readonly found: readonly Candidate[]; readonly exact: boolean } {
  const { rules } = seats.board.barn;
  const prep = new Map(seats.horses.map((horse) => [horse.id, prepMinutes(seats, horse.id)]));
  const best = new Map<string, Candidate>();
  let limit = Infinity;
  let nodes = 0;
  let exact = true;

  const affected = seats.all.filter((seat) => seat.affected);
  visit({
    given: [],
    left: [],
    pending: affected,
    days: new Map(),
    freed: new Set(),
    rank: { uncovered: 0, changed: 0, risk: 0, soft: 0 },
  });
  return { found: ranked(), exact };

  function visit(node: Node): void {
    if (!exact || costOf(node.rank) + bound(node) >= limit) return;
    const [seat, ...pending] = node.pending;
    if (!seat) {
      settle(node);
      return;
    }
    nodes += 1;
    if (nodes > limits.nodes) {
      exact = false;
      return;
    }
    for (const { pairing, least } of offers(node, seat)) {
      if (least >= limit || !exact) break;
      for (const next of taking(node, seat, pending, pairing)) visit(next);
    }
    if (!seat.affected) return;
    visit({
      ...node,
      pending,
      left: [...node.left, seat],
      rank: { ...node.rank, uncovered: node.rank.uncovered + 1 },
    });
  }

  /** Horses the rules let into this seat, cheapest first; readiness counts as far as it is known. */
  function offers(node: Node, seat: Seat): { readonly pairing: Pairing; readonly least: number }[] {
    const list = [...pairings.of(seat).values()]
      .filter(({ blocks, horse }) => blocks.length === 0 && horse.id !== seat.place.horse)
      .map((pairing) => ({ pairing, least: costOf(node.rank) + pairCost(node, seat, pairing, 1) }));
    return list.sort((a, b) => a.least - b.least || (a.pairing.horse.id < b.pairing.horse.id ? -1 : 1));
  }

  /** Points for one change; `shares`: in how many lessons the horse's preparation may be counted. */
  function pairCost(node: Node, seat: Seat, { horse, soft }: Pairing, shares: number): number {
    const known = pairings.knownReadiness(seat, horse.id);
    const risk = known ? riskOf(known, rules) : 0;
    const paid = node.given.some((one) => one.pairing.horse.id === horse.id);
    const share = paid ? 0 : Math.floor(((prep.get(horse.id) ?? 0) * POINTS.prepMinute) / shares);
    return costOf({ uncovered: 0, changed: 1, risk, soft: soft + share });
  }

  function dayOf(node: Node, horse: string): readonly Seat[] {
    return node.days.get(horse) ?? seats.kept.get(horse) ?? [];
  }

  /** The ways to put this horse here: one for each set of settled places it must give up for it. */
  function taking(node: Node, seat: Seat, pending: readonly Seat[], pairing: Pairing): Node[] {
    if (node.given.length >= limits.changes) return [];
    const horse = pairing.horse.id;
    const given = new Set(node.given.filter((one) => one.pairing.horse.id === horse).map((o) => o.seat.key));
    const day = dayOf(node, horse);
    const clashes = day.filter((one) => overlap(one.lesson, seat.lesson));
    if (clashes.some((one) => given.has(one.key) || !one.movable)) return [];
    const readiness = pairings.readiness(seat, horse);
    if (readiness.spareMs !== null && readiness.spareMs < 0) return [];

    const stays = day.filter((one) => !clashes.includes(one));
    const must = [seat, ...stays.filter((one) => given.has(one.key))];
    const kept = stays.filter((one) => !given.has(one.key));
    const risk = riskOf(readiness, rules);
    const paid = given.size > 0;
    const charge = paid ? 0 : (prep.get(horse) ?? 0) * POINTS.prepMinute;
    return giveUps(seats, horse, must, kept).map((gone) => {
      const freed = [...clashes, ...gone];
      return {
        given: [...node.given, { seat, pairing, risk }],
        left: node.left,
        pending: [...pending, ...freed].sort(bySeat),
        days: new Map(node.days).set(horse, [...must, ...kept.filter((one) => !gone.includes(one))]),
        freed: new Set([...node.freed, ...freed.map((one) => one.key)]),
        rank: {
          uncovered: node.rank.uncovered,
          changed: node.rank.changed + 1,
          risk: node.rank.risk + risk,
          soft: node.rank.soft + pairing.soft + charge,
        },
      };
    });
  }

  /** At least what the pending places will still cost; `Infinity`: one of them cannot be filled. */
  function bound(node: Node): number {
    const lessons = new Map(node.pending.map((seat) => [seat.lesson.id, seat.lesson]));
    const shares = new Map<string, number>();
    for (const lesson of lessons.values()) {
      const waiting = node.pending.filter((seat) => seat.lesson.id === lesson.id);
      for (const { id } of seats.horses) {
        const may = waiting.some((seat) => pairings.of(seat).get(id)?.blocks.length === 0);
        if (may) shares.set(id, (shares.get(id) ?? 0) + 1);
      }
    }
    let sum = 0;
    for (const lesson of lessons.values()) {
      sum += lessonBound(node, lesson.id, shares);
      if (costOf(node.rank) + sum >= limit) break;
    }
    return sum;
  }

  function lessonBound(node: Node, lesson: string, shares: ReadonlyMap<string, number>): number {
    const given = new Set(node.given.map((one) => one.seat.key));
    const waiting = node.pending.filter((seat) => seat.lesson.id === lesson);
    const first = waiting[0];
    if (!first) return 0;
    const settled = seats.all.filter(
      (seat) =>
        seat.lesson.id === lesson &&
        seat.movable &&
        !seat.affected &&
        !given.has(seat.key) &&
        !node.freed.has(seat.key),
    );
    /** Horses that are elsewhere at that time and cannot leave. */
    const taken = seats.horses.map(({ id }) => {
      const mine = node.given.filter((one) => one.pairing.horse.id === id).map((one) => one.seat.key);
      return dayOf(node, id).some(
        (seat) => overlap(seat.lesson, first.lesson) && (!seat.movable || mine.includes(seat.key)),
      );
    });
    const costs = [...waiting, ...settled].map((seat) => {
      const pairs = pairings.of(seat);
      const isWaiting = waiting.includes(seat);
      const row = seats.horses.map(({ id }, i) => {
        if (seat.place.horse === id) return isWaiting ? Infinity : 0;
        const pairing = pairs.get(id);
        if (!pairing || taken[i] === true || pairing.blocks.length > 0) return Infinity;
        if (!isWaiting) return ONE_CHANGE;
        const known = pairings.knownReadiness(seat, id);
        if (known && known.spareMs !== null && known.spareMs < 0) return Infinity;
        return pairCost(node, seat, pairing, shares.get(id) ?? 1);
      });
      // A place that asked for a stand-in may stay without: a column for each such row.
      const none = waiting.map((one) => (one === seat && seat.affected ? ONE_UNCOVERED : Infinity));
      return [...row, ...none];
    });
    return assign(costs)?.cost ?? Infinity;
  }

  function settle({ given, left, rank, freed }: Node): void {
    if (given.length === 0 || left.length < limits.uncovered || !isLean(seats, given, freed)) return;
    const key = [...new Set(given.map((one) => one.pairing.horse.id))].sort().join(' ');
    const known = best.get(key);
    if (known && costOf(known.rank) <= costOf(rank)) return;
    best.set(key, { given, left, rank });
    const list = ranked();
    const worst = list[limits.candidates - 1];
    // Nothing that covers fewer places is an option beside one that covers more.
    const fewer = ((list[0]?.rank.uncovered ?? 0) + 1) * ONE_UNCOVERED;
    limit = worst ? Math.min(fewer, costOf(worst.rank)) : fewer;
  }

  function ranked(): Candidate[] {
    const all = [...best.values()].sort((a, b) => costOf(a.rank) - costOf(b.rank));
    const most = all[0]?.rank.uncovered;
    return all.filter((one) => one.rank.uncovered === most).slice(0, limits.candidates);
  }
}

/** Beyond this many moved settled places only the first are looked at; their subsets double with each. */
const MOST_LOOKED_AT = 10;

/** Whether every settled place that changes has to: with fewer changes the rest would break a rule. */
function isLean(seats: Seats, given: readonly Given[], freed: ReadonlySet<string>): boolean {
  const moved = given.filter((one) => freed.has(one.seat.key)).slice(0, MOST_LOOKED_AT);
  for (let set = 1; set < 2 ** moved.length; set += 1) {
    const back = moved.filter((_, i) => (set & (1 << i)) !== 0).map((one) => one.seat.key);
    const gone = [...freed].filter((key) => !back.includes(key));
    const rest = given.filter((one) => !back.includes(one.seat.key));
    if (holds(seats, rest, gone)) return false;
  }
  return true;
}

/** No horse that comes in somewhere is in two lessons at once or works too much. */
function holds(seats: Seats, given: readonly Given[], gone: readonly string[]): boolean {
  return [...new Set(given.map((one) => one.pairing.horse.id))].every((horse) => {
    const comes = given.filter((one) => one.pairing.horse.id === horse).map((one) => one.seat);
    const stays = (seats.kept.get(horse) ?? []).filter((seat) => !gone.includes(seat.key));
    const isFree = comes.every((seat, i) =>
      [...stays, ...comes.slice(i + 1)].every((other) => !overlap(seat.lesson, other.lesson)),
    );
    return (
      isFree &&
      fitsDay(
        seats,
        horse,
        [...stays, ...comes].map((seat) => seat.lesson),
      )
    );
  });
}

function bySeat(a: Seat, b: Seat): number {
  return (
    a.lesson.start - b.lesson.start || lessonEnd(a.lesson) - lessonEnd(b.lesson) || (a.key < b.key ? -1 : 1)
  );
}
