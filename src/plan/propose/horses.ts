/** Horses for the places that have none: by the rules of the stand-ins, matched lesson by lesson. */
import { own } from '../../barn/basics.ts';
import type { Board } from '../../day/board.ts';
import { minutesBetween } from '../../day/conflicts.ts';
import { planPlaces } from '../../day/planPlaces.ts';
import { lessonEnd } from '../../day/preps.ts';
import { MINUTE_MS } from '../../time/units.ts';
import { judgePair, prepMinutes, type Pairing } from '../standIns/pair.ts';
import { POINTS } from '../standIns/rank.ts';
import { judgeDay, overlap, seatsOf, type Seat, type Seats } from '../standIns/seats.ts';
import { match, overlapping } from './match.ts';
import type { HorseBlock, HorseChoice, LeftOpen } from './model.ts';

type Proposed = {
  /** The board with the choices made. */
  readonly board: Board;
  readonly choices: readonly HorseChoice[];
  readonly open: readonly LeftOpen[];
};

/**
 * Lessons at the same time are matched together, earlier ones first. A horse that one of them keeps from another it does
 * not overlap with is tried again alone. Greedy over the day: workload is used up in the order of the lessons.
 */
export function proposeHorses(start: Board): Proposed {
  let board = start;
  const choices: HorseChoice[] = [];
  const take = (seats: Seats, asking: readonly Seat[]): void => {
    const offers = asking.map((seat) => seats.horses.map((horse) => offer(seats, seat, horse.id)));
    const columns = match(offers.map((row) => row.map(({ cost }) => cost)));
    for (const [row, seat] of asking.entries()) {
      const pairing = offers[row]?.[columns[row] ?? -1]?.pairing;
      if (!pairing) continue;
      choices.push(choiceOf(seat, pairing));
      board = withHorse(board, seat, pairing);
    }
  };
  for (const group of overlapping(openSeats(seatsOf(board, 0, [])))) {
    const seats = seatsOf(board, 0, []);
    take(seats, group);
  }
  for (const { key } of openSeats(seatsOf(board, 0, []))) {
    const seats = seatsOf(board, 0, []);
    const seat = seats.byKey.get(key);
    if (seat) take(seats, [seat]);
  }
  const seats = seatsOf(board, 0, []);
  return { board, choices, open: openSeats(seats).map((seat) => leftOpen(seats, seat)) };
}

function openSeats({ all, board }: Seats): Seat[] {
  return all.filter(({ place }) => place.horse === null || !own(board.barn.horses, place.horse));
}

type Offer = { readonly pairing: Pairing; readonly blocks: readonly HorseBlock[]; readonly cost: number };

function offer(seats: Seats, seat: Seat, id: string): Offer {
  const horse = seats.horses.find((one) => one.id === id);
  if (!horse) throw new Error(`no horse ${id}`);
  const pairing = judgePair(seats, seat, horse);
  const blocks = [...pairing.blocks, ...inDay(seats, seat, pairing)];
  const cost = pairing.soft + prepMinutes({ ...seats, now: 0 }, id) * POINTS.prepMinute;
  return { pairing, blocks, cost: blocks.length > 0 ? Infinity : Math.min(cost, 9999) };
}

/** What the horse's other lessons of the day say against one more. */
function inDay(seats: Seats, seat: Seat, { horse, tack }: Pairing): HorseBlock[] {
  const its = seats.kept.get(horse.id) ?? [];
  const clash = its.find((one) => overlap(one.lesson, seat.lesson));
  if (clash) {
    const code = clash.lesson.id === seat.lesson.id ? 'same-lesson' : 'overlapping-lesson';
    return [{ code, lesson: clash.lesson.id, place: clash.place.id, unblock: null }];
  }
  const here: Seat = { ...seat, place: { ...seat.place, horse: horse.id, tack: tack?.id ?? null } };
  const before = its.filter((one) => one.lesson.start < seat.lesson.start).at(-1);
  const after = its.find((one) => one.lesson.start > seat.lesson.start);
  const tight = [
    ...(before ? tooLittle(seats.board, before, here, before) : []),
    ...(after ? tooLittle(seats.board, here, after, after) : []),
  ];
  const verdict = judgeDay(
    seats,
    horse.id,
    [...its, seat].map((one) => one.lesson),
  );
  if (verdict.kind === 'does-not-fit')
    return [...tight, ...verdict.over.map((over) => ({ code: 'workload', over, unblock: null }) as const)];
  return tight;
}

function tooLittle(board: Board, first: Seat, second: Seat, other: Seat): HorseBlock[] {
  const minutes = Math.floor((second.lesson.start - lessonEnd(first.lesson)) / MINUTE_MS);
  const needed = minutesBetween(board, first, second).wished;
  return minutes < needed ? [{ code: 'too-little-between', lesson: other.lesson.id, minutes, needed }] : [];
}

function choiceOf({ lesson, place }: Seat, pairing: Pairing): HorseChoice {
  return {
    lesson: lesson.id,
    place: place.id,
    horse: pairing.horse.id,
    tack: pairing.tack?.id ?? null,
    for: pairing.for,
    against: pairing.against,
  };
}

function withHorse(board: Board, { lesson, place }: Seat, { horse, tack }: Pairing): Board {
  const { cancelled: _not, ...plan } = place;
  return planPlaces(board, {
    kind: 'placesPlanned',
    changes: [{ lesson: lesson.id, place: { ...plan, horse: horse.id, tack: tack?.id ?? null } }],
  });
}

function leftOpen(seats: Seats, seat: Seat): LeftOpen {
  const horses = seats.horses.map(({ id }) => ({ horse: id, blocks: offer(seats, seat, id).blocks }));
  return { lesson: seat.lesson.id, place: seat.place.id, what: 'horse', horses };
}
