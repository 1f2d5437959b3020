/** From one short form to the facts that put a horse, a person and a lesson on the board. */
import type { OpFact } from '#core/day/ops.ts';
import type { Board } from '#core/day/board.ts';
import { pieceId } from '#core/day/pieces.ts';
import { openStages } from '#core/day/preps.ts';
import { asks, isCleared, type Clearance } from '#core/barn/stage.ts';
import { own } from '#core/barn/basics.ts';
import { instantAt } from '#core/time/zone.ts';

/** Longest name the records take. */
export const MOST_SIGNS = 40;

export const SHOES = ['none', 'front', 'all'] as const;
export type Shoes = (typeof SHOES)[number];

export type AddForm = {
  /** Id of a horse of the barn; empty: a new one. */
  horse: string;
  horseName: string;
  shoes: Shoes;
  stall: string;
  /** Id of a volunteer of the barn; empty: a new one. */
  person: string;
  personName: string;
  clearances: readonly Clearance[];
  /** Whether a lesson is added too. */
  withLesson: boolean;
  lessonName: string;
  /** `HH:mm` on the barn's wall clock. */
  time: string;
  minutes: number;
  riderName: string;
  staffName: string;
};

export const MISSING = ['horseName', 'stall', 'personName', 'clearances', 'lessonName', 'time'] as const;
export type Missing = (typeof MISSING)[number];

/** Distance between two stalls' doors in a row: a stall of 12 ft. Common practice, no source. */
const STALL_METRES = 3.7;
const MOST_METRES = 500;

/** What the form still needs, in its order. A horse or a person alone is enough when there is no lesson. */
export function missing(form: AddForm): readonly Missing[] {
  const hasHorse = form.horse !== '' || form.horseName.trim() !== '';
  const hasPerson = form.person !== '' || form.personName.trim() !== '';
  const newHorse = form.horse === '' && form.horseName.trim() !== '';
  const newPerson = form.person === '' && form.personName.trim() !== '';
  const needs: Record<Missing, boolean> = {
    horseName: !hasHorse && (form.withLesson || !hasPerson),
    stall: newHorse && form.stall.trim() === '',
    personName: !hasPerson && form.withLesson,
    clearances: newPerson && form.clearances.length === 0,
    lessonName: form.withLesson && form.lessonName.trim() === '',
    time: form.withLesson && !/^([01]\d|2[0-3]):[0-5]\d$/.test(form.time),
  };
  return MISSING.filter((one) => needs[one]);
}

/**
 * The facts, in the order they must be sent. `date` is the day's date (ISO 8601) to open when none is open yet; `newId`
 * gives ids. Call with a form of which nothing is missing.
 */
export function factsFor(form: AddForm, board: Board, date: string, newId: () => string): OpFact[] {
  const { barn, day } = board;
  const facts: OpFact[] = day.date === null ? [{ kind: 'dayOpened', date }] : [];
  const save = (saved: Extract<OpFact, { kind: 'recordSaved' }>['saved']): void => {
    facts.push({ kind: 'recordSaved', saved });
  };
  if (form.staffName.trim() !== '') {
    save({ table: 'staff', record: { id: newId(), name: form.staffName.trim(), role: 'coordinator' } });
  }
  let horse: string | null = form.horse === '' ? null : form.horse;
  if (horse === null && form.horseName.trim() !== '') {
    const stallName = form.stall.trim();
    let stall = Object.values(barn.stalls).find(({ name }) => name === stallName)?.id;
    if (stall === undefined) {
      stall = newId();
      const metres = Math.min(MOST_METRES, Object.keys(barn.stalls).length * STALL_METRES);
      save({ table: 'stalls', record: { id: stall, name: stallName, metres } });
    }
    horse = newId();
    const fore = form.shoes === 'none' ? 'barefoot' : 'shod';
    const hind = form.shoes === 'all' ? 'shod' : 'barefoot';
    save({
      table: 'horses',
      record: {
        id: horse,
        name: form.horseName.trim(),
        stall,
        feet: { LF: fore, LH: hind, RF: fore, RH: hind },
        tackLists: [],
        experiencedFor: [],
        notes: '',
        cautions: [],
        holds: [],
      },
    });
  }
  let person: string | null = form.person === '' ? null : form.person;
  if (person === null && form.personName.trim() !== '') {
    person = newId();
    const record = { id: person, name: form.personName.trim(), clearances: [...form.clearances] };
    save({ table: 'volunteers', record: { ...record, private: { pace: 1, usualHours: [] } } });
  }
  if (person !== null) facts.push({ kind: 'volunteerArrived', volunteer: person });
  if (!form.withLesson) return facts;
  let rider: string | null = null;
  if (form.riderName.trim() !== '') {
    rider = newId();
    save({ table: 'riders', record: { id: rider, callName: form.riderName.trim() } });
  }
  facts.push({
    kind: 'lessonAdded',
    lesson: {
      id: newId(),
      name: form.lessonName.trim(),
      start: instantAt({ date: day.date ?? date, time: form.time }, barn.zone),
      minutes: form.minutes,
      arena: null,
      instructor: null,
      cancelled: false,
      places: [{ id: newId(), rider, horse, tack: null, leader: null, sideWalkers: [], cancelled: false }],
    },
  });
  return facts;
}

/** The new lesson's work, given to the person as far as they are cleared; null: nothing to give. */
export function workFor(board: Board, lesson: string, person: string): OpFact | null {
  const volunteer = own(board.barn.volunteers, person);
  const pieces = Object.values(board.day.preps)
    .filter((prep) => prep.places.some((ref) => ref.lesson === lesson))
    .flatMap((prep) => {
      const experiencedFor = own(board.barn.horses, prep.horse)?.experiencedFor ?? [];
      return openStages(board.barn, prep)
        .filter((stage) => isCleared(volunteer?.clearances ?? [], asks(experiencedFor, stage)))
        .map((stage) => pieceId(prep.id, stage));
    });
  return pieces.length === 0 ? null : { kind: 'workMoved', pieces, to: person, before: null };
}
