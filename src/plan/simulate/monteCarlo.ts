/** The work played forward many times with drawn lengths, and once with the usual ones. */
import { lengthAt } from '../stageTimes.ts';
import { middleOf, ranksOf } from './draws.ts';
import { Play, type Lengths } from './play.ts';
import { leftAfter, leftMs, usualMs, type Shop } from './shop.ts';

/** Starts and ends, ms after now; Infinity: not in this draw. */
export type Draws = {
  readonly count: number;
  /** Index piece * count + draw. */
  readonly start: Float64Array;
  readonly end: Float64Array;
  /** In how many draws each worker does each piece; index piece * workers + worker. */
  readonly doneBy: Uint16Array;
};

export function draw(shop: Shop, count: number, seed: number): Draws {
  const { pieceCount, workerCount, pieces } = shop;
  const ranks = ranksOf(
    pieces.map((piece) => piece.id),
    count,
    seed,
  );
  const start = new Float64Array(pieceCount * count);
  const end = new Float64Array(pieceCount * count);
  const doneBy = new Uint16Array(pieceCount * workerCount);
  const seats = shop.workers.map((worker) => worker.seat);
  const presenceRanks = ranksOf(seats.map(String), count, `${seed}/comes`);
  const unseenRanks = ranksOf(seats.map(String), count, `${seed}/unseen`);
  const left = leftTables(shop, count);
  const unseen = unseenTables(shop, count);
  const t = new Map<number, Float64Array>();
  let s = 0;
  const lengths: Lengths = {
    whole: (p, w) => {
      // `slot` has asked for the usual length, so it is there.
      const length = shop.lengths[p * workerCount + w];
      if (!length) return Infinity;
      let values = t.get(length.table.df);
      if (!values) {
        values = Float64Array.from({ length: count }, (_, rank) => length.table.at(middleOf(rank, count)));
        t.set(length.table.df, values);
      }
      return lengthAt(length, values[ranks[p * count + s]!]!);
    },
    left: (p) => left.get(p)?.[ranks[p * count + s]!] ?? Infinity,
    unseenLeft: (p, w) => {
      const isOn = middleOf(unseenRanks[w * count + s]!, count) < shop.unseenChance[w]!;
      return isOn ? (unseen.get(w)?.[ranks[p * count + s]!] ?? Infinity) : Infinity;
    },
    comes: (w) => middleOf(presenceRanks[w * count + s]!, count) >= shop.noShow[w]!,
  };
  const play = new Play(shop);
  for (; s < count; s += 1) {
    play.run(lengths);
    for (let p = 0; p < pieceCount; p += 1) {
      start[p * count + s] = play.start[p]!;
      end[p * count + s] = play.end[p]!;
      const w = play.by[p]!;
      if (w >= 0) doneBy[p * workerCount + w] = doneBy[p * workerCount + w]! + 1;
    }
  }
  return { count, start, end, doneBy };
}

/** What may be left of each stage under way, by stratum. */
function leftTables(shop: Shop, count: number): Map<number, Float64Array> {
  const tables = new Map<number, Float64Array>();
  shop.onIt.forEach((w, p) => {
    if (w < 0) return;
    tables.set(
      p,
      Float64Array.from({ length: count }, (_, rank) => leftMs(shop, p, w, middleOf(rank, count))),
    );
  });
  return tables;
}

/** The same for what each worker may have begun without a tap. */
function unseenTables(shop: Shop, count: number): Map<number, Float64Array> {
  const tables = new Map<number, Float64Array>();
  shop.unseen.forEach((p, w) => {
    if (p < 0) return;
    const lengths = Float64Array.from({ length: count }, (_, rank) =>
      leftAfter(shop, p, w, shop.unseenFor[w]!, middleOf(rank, count)),
    );
    tables.set(w, lengths);
  });
  return tables;
}

/** The one plan in which everything takes its median: for floats, and for who waits for whom. */
export function usualPlay(shop: Shop): Play {
  const play = new Play(shop);
  play.run({
    whole: (p, w) => usualMs(shop, p, w),
    left: (p, w) => leftMs(shop, p, w, 0.5),
    // More likely than not is taken for so.
    unseenLeft: (p, w) =>
      shop.unseenChance[w]! > 0.5 ? leftAfter(shop, p, w, shop.unseenFor[w]!, 0.5) : Infinity,
  });
  return play;
}
