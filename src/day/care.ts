/** What is kept of a horse's care besides its work, and the weather of the day. */
import { own, put } from '../barn/basics.ts';
import type { Hold, Horse } from '../barn/horse.ts';
import type { WeatherReading } from '../care/weatherRules.ts';
import type { Board, Day } from './board.ts';
import { KEPT_READINGS } from './kept.ts';
import type { Fact } from './ops.ts';
import type { Stamp } from './steps.ts';

/** Whose word a release needs, vet first. */
export function wordsAsked(holds: readonly Hold[]): ('vet' | 'farrier')[] {
  return (['vet', 'farrier'] as const).filter((kind) => holds.some((hold) => hold.kind === kind));
}

export function readWeather(day: Day, reading: WeatherReading, stamp: Stamp): Day {
  if (day.weather.some((note) => note.id === stamp.id)) return day;
  const note = { id: stamp.id, reading, by: stamp.by, at: Math.min(stamp.tappedAt, stamp.at) };
  const weather = [...day.weather, note].sort((a, b) => a.at - b.at || (a.id < b.id ? -1 : 1));
  return { ...day, weather: weather.slice(-KEPT_READINGS) };
}

export function isolate(board: Board, fact: Extract<Fact, { kind: 'horseIsolated' }>, stamp: Stamp): Board {
  const since = Math.min(stamp.tappedAt, stamp.at);
  return withHorse(board, fact.horse, (horse) =>
    horse.isolation ? horse : { ...horse, isolation: { why: fact.why, by: stamp.by, since } },
  );
}

export function endIsolation(board: Board, id: string): Board {
  return withHorse(board, id, (horse) => {
    if (!horse.isolation) return horse;
    const { isolation: _over, ...rest } = horse;
    return rest;
  });
}

export function farrierCame(board: Board, id: string, date: string): Board {
  return withHorse(board, id, (horse) =>
    horse.farrierOn !== undefined && horse.farrierOn >= date ? horse : { ...horse, farrierOn: date },
  );
}

/** A board that may not know what a horse carries keeps no score. */
export function scoreCondition(
  board: Board,
  { horse: id, score }: Extract<Fact, { kind: 'conditionScored' }>,
  stamp: Stamp,
): Board {
  const at = Math.min(stamp.tappedAt, stamp.at);
  return withHorse(board, id, (horse) => {
    const known = horse.private ?? { weight: null, pony: false, condition: null, loadLimit: null };
    if (known.conditionSeen && known.conditionSeen.at > at) return horse;
    return { ...horse, private: { ...known, condition: score, conditionSeen: { by: stamp.by, at } } };
  });
}

function withHorse(board: Board, id: string, change: (horse: Horse) => Horse): Board {
  const horse = own(board.barn.horses, id);
  const next = horse && change(horse);
  if (!next || next === horse) return board;
  return { ...board, barn: { ...board.barn, horses: put(board.barn.horses, id, next) } };
}
