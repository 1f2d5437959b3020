/**
 * Simulated people. Each looks at the board as an aisle tablet shows it, walks to a horse, works on it for a random
 * time and taps, not always as they should. Pure: the moment, the board and chance are arguments.
 */
import { own } from '#core/barn/basics.ts';
import { asks, isCleared, type AfterStage, type Stage } from '#core/barn/stage.ts';
import { pieceId } from '#core/day/pieces.ts';
import type { OpFact } from '#core/day/ops.ts';
import { isPulled, openStages } from '#core/day/preps.ts';
import { isCountedOn } from '#core/day/presence.ts';
import { MINUTE_MS, SECOND_MS } from '#core/time/units.ts';
import { toPutAway, type ToPutAway } from './aftercare.ts';
import type { Nature } from './natures.ts';
import type { Chance } from './random.ts';
import { doerOf, type Duty, type OpenPrep, type Scene } from './scene.ts';

/** How long things really take in this barn. */
export type World = {
  /** Time a stage of this horse takes over the barn's usual time. */
  readonly horseFactor: (horse: string, stage: Stage) => number;
  /** Shape of the gamma distribution of stage times: higher is steadier. */
  readonly shape: Readonly<Record<Stage, number>>;
  /** A horse is taken up this long before its ramp time at the earliest, ms. */
  readonly earliestMs: number;
};

type Piece = { readonly prep: string; readonly stage: Stage; readonly metres: number };

type Doing =
  | { readonly what: 'away' }
  | { readonly what: 'looking' }
  | { readonly what: 'walking'; readonly to: Piece }
  | {
      readonly what: 'working';
      readonly on: Piece;
      readonly since: number;
      readonly until: number;
      /** Stages before this one that are done and not yet tapped. */
      readonly untold: readonly Stage[];
    }
  /** With a horse after its lessons. */
  | {
      readonly what: 'puttingAway';
      readonly prep: string;
      readonly stage: AfterStage;
      readonly metres: number;
      readonly since: number;
    }
  | { readonly what: 'takingBack'; readonly wrong: string; readonly meant: OpFact; readonly metres: number }
  | { readonly what: 'inLesson' }
  | { readonly what: 'gone' };

export type Person = {
  readonly nature: Nature;
  readonly doing: Doing;
  /** Where they stand, metres from the aisle's first stall. */
  readonly metres: number;
  /** When they next do something; Infinity: never again. */
  readonly wakeAt: number;
  readonly taps: number;
};

/** A tap on the tablet nearest to `metres`. */
type Tap = { readonly id: string; readonly fact: OpFact; readonly metres: number };

/** A stage as it was really worked on, whatever was tapped. */
export type Worked = {
  readonly piece: string;
  readonly by: string;
  readonly from: number;
  readonly to: number;
};

export type Step = {
  readonly person: Person;
  readonly taps: readonly Tap[];
  readonly worked: Worked | null;
};

export type Around = {
  readonly scene: Scene;
  readonly now: number;
  /** Preps that somebody else has their hands on, tapped or not. */
  readonly taken: ReadonlySet<string>;
  readonly world: World;
  readonly chance: Chance;
};

/** Walking the aisle with a brush box. Common practice, no source. */
const METRES_PER_SECOND = 1.1;

/** Fetching and looking at the board before a stage. Common practice, no source. */
const FETCH_MS = 40 * SECOND_MS;
const LOOK_AGAIN_MS = 45 * SECOND_MS;

/** Nobody takes on a horse after its lesson when they are wanted elsewhere so soon. Own choice, no source. */
const SOON_MS = 20 * MINUTE_MS;
/** Gamma shape: steadier than grooming. Own choice, no source. */
const AFTER_SHAPE = 9;

/** Nobody begins a stage when less than this part of it fits before they are due in a lesson or go home. */
const PART_THAT_MUST_FIT = 0.7;

/** Somebody not yet here. */
export function arriving(nature: Nature): Person {
  return { nature, doing: { what: 'away' }, metres: 0, wakeAt: nature.arrivesAt ?? Infinity, taps: 0 };
}

/** The prep this person has their hands on or walks to; null: none. */
export function prepInHand({ doing }: Person): string | null {
  switch (doing.what) {
    case 'working':
      return doing.on.prep;
    case 'walking':
      return doing.to.prep;
    case 'puttingAway':
      return doing.prep;
    case 'away':
    case 'looking':
    case 'takingBack':
    case 'inLesson':
    case 'gone':
      return null;
  }
}

/** What this person does at `wakeAt`. */
export function step(person: Person, around: Around): Step {
  const { doing } = person;
  const { now, chance } = around;
  switch (doing.what) {
    case 'away':
      return tapping(person, [{ kind: 'volunteerArrived', volunteer: person.nature.id }], 0, {
        doing: { what: 'looking' },
        wakeAt: now + chance.between(20, 70) * SECOND_MS,
      });
    case 'looking':
    case 'inLesson':
      return look(person, around);
    case 'walking':
      return begin(person, doing.to, around);
    case 'working':
      return now < doing.until ? glance(person, doing, around) : finish(person, doing, around);
    case 'puttingAway':
      return putAway(person, doing, around);
    case 'takingBack':
      return tapping(person, [{ kind: 'undone', op: doing.wrong }, doing.meant], doing.metres, {
        doing: { what: 'looking' },
        wakeAt: now + chance.between(5, 20) * SECOND_MS,
      });
    case 'gone':
      return still(person, { wakeAt: Infinity });
  }
}

type Change = Partial<Pick<Person, 'doing' | 'metres' | 'wakeAt'>>;

function still(person: Person, change: Change): Step {
  return { person: { ...person, ...change }, taps: [], worked: null };
}

function tapping(person: Person, facts: readonly OpFact[], metres: number, change: Change): Step {
  const taps = facts.map((fact, i): Tap => ({ id: tapId(person, i), fact, metres }));
  return { person: { ...person, ...change, taps: person.taps + facts.length }, taps, worked: null };
}

function tapId({ nature, taps }: Person, offset = 0): string {
  return `${nature.id}-${taps + offset + 1}`;
}

/** Looks at the board: into the lesson, to the next horse, or wait. */
function look(person: Person, around: Around): Step {
  const { scene, now, chance } = around;
  const { id } = person.nature;
  const presence = own(scene.board.day.hands, id)?.presence;
  if (!presence || !isCountedOn(presence)) {
    return still(person, { doing: { what: 'gone' }, wakeAt: Infinity });
  }
  const duty = scene.dutiesOf(id).find(({ from, until }) => from <= now && now < until);
  const next = duty ? leftUndone(person, duty, around) : nextTask(person, around);
  if (next) return setOff(person, next, around);
  if (duty) {
    // A lesson can be moved while people stand in it, so they look again now and then.
    const wakeAt = Math.min(duty.until, now + 2 * MINUTE_MS);
    return still(person, { doing: { what: 'inLesson' }, wakeAt: Math.max(wakeAt, now + SECOND_MS) });
  }
  const away = isNeededSoon(person, around)
    ? null
    : toPutAway(scene.board, { id, metres: person.metres }, around.taken, now);
  if (away) return takeOn(person, away, around);
  return still(person, { doing: { what: 'looking' }, wakeAt: now + chance.gamma(4, LOOK_AGAIN_MS) });
}

/** Due in a lesson, or with a horse to prepare, before a stage after a lesson could be done. */
function isNeededSoon({ nature }: Person, { scene, now, world }: Around): boolean {
  const until = now + SOON_MS;
  if (scene.dutiesOf(nature.id).some((duty) => duty.from < until && duty.until > now)) return true;
  return scene.open.some((one) => {
    const [stage] = one.open;
    const doer = stage ? doerOf(scene, one.prep, stage) : null;
    const mayBegin = one.rampTime - world.earliestMs * nature.earliness;
    return (doer === nature.id || doer === null) && mayBegin < until && one.overAt > now;
  });
}

/** Starts a stage after a horse's lesson; how long it takes is drawn like any other. */
function takeOn(person: Person, { prep, stage, metres }: ToPutAway, { scene, now, chance }: Around): Step {
  const walkMs = (Math.abs(metres - person.metres) / METRES_PER_SECOND) * SECOND_MS;
  const meanMs = scene.board.barn.rules.afterMinutes[stage] * MINUTE_MS * person.nature.pace;
  const doing: Doing = { what: 'puttingAway', prep: prep.id, stage, metres, since: now };
  const wakeAt = now + walkMs + Math.round(chance.gamma(AFTER_SHAPE, meanMs));
  const facts: OpFact[] = chance.happens(person.nature.habits.startForgotten)
    ? []
    : [{ kind: 'stageStarted', prep: prep.id, stage }];
  return tapping(person, facts, metres, { doing, metres, wakeAt });
}

function putAway(
  person: Person,
  { prep, stage, metres, since }: Extract<Doing, { what: 'puttingAway' }>,
  { now, chance }: Around,
): Step {
  const worked: Worked = { piece: pieceId(prep, stage), by: person.nature.id, from: since, to: now };
  const wakeAt = now + chance.gamma(2, 15 * SECOND_MS);
  const doing: Doing = { what: 'looking' };
  const fact: OpFact = { kind: 'stagesFinished', prep, stages: [stage] };
  return { ...tapping(person, [fact], metres, { doing, wakeAt }), worked };
}

/** Whoever leads a horse that is not ready helps to make it so. */
function leftUndone(person: Person, duty: Duty, around: Around): OpenPrep | null {
  return (
    around.scene.open.find((one) => one.prep.horse === duty.horse && canStart(person, one, around)) ?? null
  );
}

/** The first of their own pieces that can be started, else the most urgent that is nobody's. */
function nextTask(person: Person, around: Around): OpenPrep | null {
  const { scene, now, world } = around;
  const { id } = person.nature;
  const rank = (one: OpenPrep): number => {
    const piece = pieceId(one.prep.id, one.open[0] ?? 'tack');
    return own(scene.board.day.hands, id)?.queue.indexOf(piece) ?? -1;
  };
  let mine: OpenPrep | null = null;
  let nobodys: OpenPrep | null = null;
  for (const one of scene.open) {
    const [stage] = one.open;
    if (
      !stage ||
      one.rampTime - now > world.earliestMs * person.nature.earliness ||
      !canStart(person, one, around)
    )
      continue;
    if (!fitsBefore(person, one, stage, around)) continue;
    const doer = doerOf(scene, one.prep, stage);
    if (doer === id && (!mine || rank(one) < rank(mine))) mine = one;
    if (doer === null && !nobodys) nobodys = one;
  }
  return mine ?? nobodys;
}

function canStart({ nature }: Person, one: OpenPrep, { now, taken }: Around): boolean {
  const { prep, freeFrom, overAt } = one;
  if (taken.has(prep.id) || freeFrom > now || overAt <= now) return false;
  if (prep.onIt && prep.onIt.by !== nature.id) return false;
  return isCleared(nature.clearances, one.asks);
}

/** Whether most of the stage can be done before they are due in a lesson or go home. */
function fitsBefore({ nature }: Person, one: OpenPrep, stage: Stage, { scene, now }: Around): boolean {
  const { barn, day } = scene.board;
  const end = now + barn.rules.stageMinutes[stage] * MINUTE_MS * nature.pace * PART_THAT_MUST_FIT;
  const until = own(day.hands, nature.id)?.presence.until ?? null;
  if (until !== null && end > until) return false;
  return scene
    .dutiesOf(nature.id)
    .every((duty) => duty.horse === one.prep.horse || end <= duty.from || duty.until <= now);
}

function setOff(person: Person, { prep, open, metres }: OpenPrep, { now, chance }: Around): Step {
  const [stage = 'feet'] = open;
  const walkMs = (Math.abs(metres - person.metres) / METRES_PER_SECOND) * SECOND_MS;
  return still(person, {
    doing: { what: 'walking', to: { prep: prep.id, stage, metres } },
    wakeAt: now + walkMs + chance.gamma(3, walkMs > 0 ? FETCH_MS : FETCH_MS / 4),
  });
}

/** At the stall: begins, unless things have changed on the way. */
function begin(person: Person, to: Piece, around: Around): Step {
  const { scene, chance } = around;
  const there = { ...person, metres: to.metres };
  const one = scene.open.find(({ prep }) => prep.id === to.prep);
  if (!one || one.open[0] !== to.stage || !canStart(person, one, around)) return look(there, around);
  const change = work(there, to, [], around);
  if (chance.happens(person.nature.habits.startForgotten)) return still(there, change);
  return tapping(there, [{ kind: 'stageStarted', prep: to.prep, stage: to.stage }], to.metres, change);
}

/** Draws how long the stage takes. People look up halfway. */
function work({ nature }: Person, on: Piece, untold: readonly Stage[], around: Around): Change {
  const { scene, now, world, chance } = around;
  const horse = own(scene.board.day.preps, on.prep)?.horse ?? '';
  const usualMs = scene.board.barn.rules.stageMinutes[on.stage] * MINUTE_MS;
  const meanMs = usualMs * nature.pace * world.horseFactor(horse, on.stage);
  const lengthMs = Math.round(chance.gamma(world.shape[on.stage], meanMs));
  const until = now + Math.max(lengthMs, 20 * SECOND_MS);
  return {
    doing: { what: 'working', on, since: now, until, untold },
    wakeAt: now + Math.round((until - now) / 2),
  };
}

type Working = Extract<Doing, { what: 'working' }>;

/** Halfway: leaves the horse when it was pulled or is not needed any more. */
function glance(person: Person, { on, until }: Working, { scene, now, chance }: Around): Step {
  const { barn, day } = scene.board;
  const prep = own(day.preps, on.prep);
  const wanted = prep && !isPulled(barn, prep.horse) && prep.places.length > 0;
  if (wanted) return still(person, { wakeAt: until });
  return still(person, { doing: { what: 'looking' }, wakeAt: now + chance.between(20, 60) * SECOND_MS });
}

function finish(person: Person, working: Working, around: Around): Step {
  const { on, since, untold } = working;
  const { now, chance } = around;
  const { id, habits } = person.nature;
  const worked: Worked = { piece: pieceId(on.prep, on.stage), by: id, from: since, to: now };
  const following = stageAfter(person, on, around);
  if (following && untold.length === 0 && chance.happens(habits.twoAtOnce)) {
    const next = { ...on, stage: following };
    return { ...still(person, work(person, next, [on.stage], around)), worked };
  }
  const meant: OpFact = { kind: 'stagesFinished', prep: on.prep, stages: [...untold, on.stage] };
  const neighbour = chance.happens(habits.wrongTile) ? mistakable(on, around) : null;
  if (neighbour) {
    const wrong: OpFact = { ...meant, prep: neighbour.prep.id, stages: [on.stage] };
    const doing: Doing = { what: 'takingBack', wrong: tapId(person), meant, metres: on.metres };
    const wakeAt = now + chance.between(8, 40) * SECOND_MS;
    return { ...tapping(person, [wrong], on.metres, { doing, wakeAt }), worked };
  }
  const wakeAt = now + chance.gamma(2, 15 * SECOND_MS);
  return { ...tapping(person, [meant], on.metres, { doing: { what: 'looking' }, wakeAt }), worked };
}

/** The next stage of the same horse, when it is theirs too; null otherwise. */
function stageAfter({ nature }: Person, on: Piece, { scene }: Around): Stage | null {
  const { barn, day } = scene.board;
  const prep = own(day.preps, on.prep);
  const horse = prep && own(barn.horses, prep.horse);
  if (!prep || !horse) return null;
  const next = openStages(barn, prep).find((stage) => stage !== on.stage);
  if (!next || doerOf(scene, prep, next) !== nature.id) return null;
  return isCleared(nature.clearances, asks(horse.experiencedFor, next)) ? next : null;
}

/** Another horse that waits for the same stage, near enough to be tapped by mistake. */
function mistakable(on: Piece, { scene, chance }: Around): OpenPrep | null {
  const like = scene.open.filter((one) => one.prep.id !== on.prep && one.open[0] === on.stage);
  return chance.pick(like.filter((one) => Math.abs(one.metres - on.metres) < 15)) ?? null;
}
