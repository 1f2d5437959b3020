/** The invented barn's records. No place, person or horse in it is real. */
import type * as z from 'zod/mini';
import { emptyBarn, type Barn } from '#core/barn/barn.ts';
import type { Arena, Helmet, Staff, UsualHours, Volunteer } from '#core/barn/people.ts';
import { CLEARANCES, type Clearance } from '#core/barn/stage.ts';
import { dateOfDayNumber, dayNumber } from '#core/care/civilDate.ts';
import { wallTimeAt } from '#core/time/zone.ts';
import { byId, HORSES, STALLS } from './horses.ts';
import { RIDERS } from './riders.ts';

const DEMO_NAME = 'Quillfen Barn';
export const DEMO_ZONE = 'America/Denver';

type Hours = z.infer<typeof UsualHours>;

const TUESDAY = 2;
const THURSDAY = 4;

/** Afternoons from 13:00 to 18:00. */
const usual = (...weekdays: readonly number[]): Hours[] =>
  weekdays.map((weekday) => ({ weekday, from: 13 * 60, until: 18 * 60 }));

function volunteer(id: string, name: string, pace: number, clearances: readonly Clearance[]): Volunteer {
  return {
    id,
    name,
    clearances: [...clearances],
    private: { pace, usualHours: usual(TUESDAY, ...(pace < 1.2 ? [THURSDAY] : [])) },
  };
}

/** Pace: above 1 is slower than the barn's usual time. */
const VOLUNTEERS: readonly Volunteer[] = [
  volunteer('v1', 'Amara', 0.85, CLEARANCES),
  volunteer('v2', 'Dilnoza', 1, ['feet', 'coat', 'tack', 'lead']),
  volunteer('v3', 'Emeka', 0.8, CLEARANCES),
  volunteer('v4', 'Ingrid', 0.95, ['feet', 'coat', 'tack', 'lead', 'experienced']),
  volunteer('v5', 'Kofi', 1.5, ['coat', 'side-walk']),
  volunteer('v6', 'Leilani', 1.1, ['coat', 'tack', 'side-walk']),
  volunteer('v7', 'Mateo', 1.2, ['feet', 'coat', 'tack', 'lead', 'side-walk']),
  volunteer('v8', 'Priya', 1.05, ['feet', 'coat', 'tack', 'lead', 'side-walk']),
  volunteer('v9', 'Søren', 1.35, ['feet', 'coat', 'tack', 'lead', 'side-walk']),
  volunteer('v10', 'Yuki', 1, ['feet', 'coat', 'tack', 'lead']),
];

export const COORDINATOR = 'c1';
const FARAH = 'i1';
const OWEN = 'i2';

const STAFF: readonly Staff[] = [
  { id: COORDINATOR, name: 'Ruth', role: 'coordinator' },
  { id: FARAH, name: 'Farah', role: 'instructor' },
  { id: OWEN, name: 'Owen', role: 'instructor' },
];

const ARENAS: readonly Arena[] = [
  { id: 'a1', name: 'Indoor arena' },
  { id: 'a2', name: 'Outdoor arena' },
];

/** A horse that rests under a vet's hold, so that a newcomer sees what that looks like. */
const RESTING = { horse: 'ziggy', why: 'Resting until the vet has seen him again.' } as const;

/** The barn as it stands before the first lesson. Nobody is held but the one that rests, since `restingSince` (ms). */
export function demoBarn(restingSince: number): Barn {
  const today = wallTimeAt(restingSince, DEMO_ZONE).date;
  const horses = HORSES.map((kept, i) => ({ ...kept, farrierOn: farrierOn(today, i) })).map((horse) =>
    horse.id === RESTING.horse
      ? { ...horse, holds: [{ kind: 'vet', why: RESTING.why, by: FARAH, since: restingSince } as const] }
      : horse,
  );
  return {
    ...emptyBarn(DEMO_NAME, DEMO_ZONE),
    stalls: byId(STALLS),
    horses: byId(horses),
    volunteers: byId(VOLUNTEERS),
    staff: byId(STAFF),
    riders: byId(RIDERS),
    arenas: byId(ARENAS),
    helmets: byId(helmets(today)),
  };
}

/** Days since the farrier, horse by horse in turn: most are fine, one in seven will be due soon. */
const FARRIER_DAYS = [12, 33, 5, 47, 20, 26, 40] as const;

function farrierOn(today: string, index: number): string {
  return daysBack(today, FARRIER_DAYS[index % FARRIER_DAYS.length] ?? 0);
}

/** The barn's helmets: one of them is past its years. */
function helmets(today: string): readonly Helmet[] {
  return [
    { id: 'h1', name: 'Blue, 54 cm', boughtOn: daysBack(today, 400), knocked: false },
    { id: 'h2', name: 'Green, 56 cm', boughtOn: daysBack(today, 1900), knocked: false },
    { id: 'h3', name: 'Red, 58 cm', boughtOn: daysBack(today, 900), knocked: false },
  ];
}

function daysBack(today: string, days: number): string {
  return dateOfDayNumber((dayNumber(today) ?? 0) - days);
}
