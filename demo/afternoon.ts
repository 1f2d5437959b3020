/** Everybody of one afternoon: who acts next, and what they tap. It knows no clock and no socket; both are given to it. */
import type { Stage } from '#core/barn/stage.ts';
import type { Board } from '#core/day/board.ts';
import type { Op, OpFact } from '#core/day/ops.ts';
import type { Role } from '#core/day/places.ts';
import { lessonEnd } from '#core/day/preps.ts';
import { MINUTE_MS } from '#core/time/units.ts';
import { COORDINATOR } from './barn.ts';
import { goRound, NOTHING_SEEN, ROUND_MS, type Watch } from './coordinator.ts';
import { natures, USUAL_HABITS, type Habits } from './natures.ts';
import { chance, seedFor, type Chance } from './random.ts';
import { sceneReader, type Scene } from './scene.ts';
import type { Cue } from './script.ts';
import { arriving, prepInHand, step, type Person, type Worked, type World } from './volunteers.ts';

/** The tablets of the simulated barn: two along the aisle, one at the arena door, one in the coordinator's hand. */
export const TABLETS = ['aisle-near', 'aisle-far', 'door-indoor', 'coordinator-hand'] as const;
export type Tablet = (typeof TABLETS)[number];

export const ROLE_OF: Readonly<Record<Tablet, Role>> = {
  'aisle-near': 'aisle',
  'aisle-far': 'aisle',
  'door-indoor': 'door',
  'coordinator-hand': 'coordinator',
};

const CUE_TABLET: Readonly<Record<Role, Tablet>> = {
  aisle: 'aisle-near',
  door: 'door-indoor',
  coordinator: 'coordinator-hand',
};

export type AfternoonOptions = {
  /** The board as it stands when the afternoon begins, with everything a coordinator knows. */
  readonly board: Board;
  /** One day's chance. */
  readonly seed: number;
  /** When it begins, ms. */
  readonly from: number;
  readonly script: readonly Cue[];
  /** When these people really come, ms; null: not at all. */
  readonly arrivals?: Readonly<Record<string, number | null>>;
  readonly habits?: Habits;
  /** Probability that somebody expected does not come. */
  readonly absence?: number;
  /** Whether the simulated coordinator moves work between people. */
  readonly coordinated?: boolean;
  /** What the horses and people are like, over all days. */
  readonly barnSeed?: number;
  /** Horses are taken up this long before their ramp time at the earliest, minutes; default the barn's rule. */
  readonly earliestMinutes?: number;
};

export type Sent = { readonly tablet: Tablet; readonly op: Op };

/** Gamma shapes: a coefficient of variation of 0.41, 0.33 and 0.38, skewed to the right. */
const SHAPE: Readonly<Record<Stage, number>> = { feet: 6, coat: 9, tack: 7 };

/** How long after the last lesson the afternoon is over: its horses are put away. */
export const AFTER_MS = 40 * MINUTE_MS;

export class Afternoon {
  readonly #read: (board: Board) => Scene = sceneReader();
  readonly #readAll: (board: Board) => Scene = sceneReader();
  readonly #world: World;
  readonly #chances: readonly Chance[];
  readonly #cues: Cue[];
  readonly #middle: number;
  readonly #coordinated: boolean;
  #people: Person[];
  #roundAt: number;
  #rounds = 0;
  #watch: Watch = NOTHING_SEEN;
  readonly worked: Worked[] = [];

  constructor(options: AfternoonOptions) {
    const { board, seed, from, script, barnSeed = 1 } = options;
    const earliestMinutes = options.earliestMinutes ?? board.barn.rules.earliestMinutes;
    this.#world = {
      horseFactor: lastingFactors(barnSeed),
      shape: SHAPE,
      earliestMs: earliestMinutes * MINUTE_MS,
    };
    const who = natures(
      board,
      { habits: USUAL_HABITS, absence: 0, arrivals: {}, ...given(options) },
      (id) => chance(seedFor(seed, `arrival ${id}`)),
      (id) => chance(seedFor(barnSeed, `person ${id}`)),
    );
    this.#people = who.map(arriving);
    this.#chances = who.map(({ id }) => chance(seedFor(seed, `work ${id}`)));
    this.#cues = [...script].sort((a, b) => a.at - b.at);
    this.#middle = Math.max(0, ...Object.values(board.barn.stalls).map(({ metres }) => metres)) / 2;
    this.#coordinated = options.coordinated ?? true;
    this.#roundAt = this.#coordinated ? from + ROUND_MS : Infinity;
  }

  /** When somebody next does something, ms; Infinity: nobody does any more. */
  get dueAt(): number {
    const people = this.#people.reduce((least, person) => Math.min(least, person.wakeAt), Infinity);
    return Math.min(people, this.#roundAt, this.#cues[0]?.at ?? Infinity);
  }

  /**
   * Whoever is due acts, at `now` (ms, not before `dueAt`), going by the board that tablets of each role show. Returns
   * what they tap, in order.
   */
  act(now: number, boardOf: (role: Role) => Board): readonly Sent[] {
    const due = this.dueAt;
    const [cue] = this.#cues;
    if (cue && cue.at <= due) return this.#speak(cue, now, boardOf);
    if (this.#roundAt <= due) return this.#round(now, boardOf('coordinator'));
    const index = this.#people.findIndex((person) => person.wakeAt <= due);
    return this.#live(index, now, boardOf('aisle'));
  }

  #speak(cue: Cue, now: number, boardOf: (role: Role) => Board): readonly Sent[] {
    this.#cues.shift();
    const tablet = CUE_TABLET[cue.from];
    return cue
      .facts(boardOf(cue.from), now)
      .map((fact, i) => sent(tablet, `${cue.id}-${i + 1}`, cue.by, now, fact));
  }

  #round(now: number, board: Board): readonly Sent[] {
    const { watch, fact } = goRound(this.#readAll(board), this.#watch, now, this.#world.earliestMs);
    this.#watch = watch;
    this.#roundAt = now + ROUND_MS;
    this.#rounds += 1;
    return fact ? [sent('coordinator-hand', `round-${this.#rounds}`, COORDINATOR, now, fact)] : [];
  }

  #live(index: number, now: number, board: Board): readonly Sent[] {
    const person = this.#people[index];
    const own = this.#chances[index];
    if (!person || !own) return [];
    const taken = new Set(
      this.#people.flatMap((other) => (other === person ? [] : (prepInHand(other) ?? []))),
    );
    const next = step(person, { scene: this.#read(board), now, taken, world: this.#world, chance: own });
    this.#people = this.#people.with(index, next.person);
    if (next.worked) this.worked.push(next.worked);
    return next.taps.map(({ id, fact, metres }) =>
      sent(metres <= this.#middle ? 'aisle-near' : 'aisle-far', id, person.nature.id, now, fact),
    );
  }
}

function given({ habits, absence, arrivals }: AfternoonOptions): object {
  return {
    ...(habits && { habits }),
    ...(absence !== undefined && { absence }),
    ...(arrivals && { arrivals }),
  };
}

function sent(tablet: Tablet, id: string, by: string, now: number, fact: OpFact): Sent {
  return { tablet, op: { id, device: tablet, by, tappedAt: Math.round(now), fact } };
}

/** How much longer or shorter each horse takes than the barn's usual time: 0.8 to 1.3, the same every day. */
function lastingFactors(barnSeed: number): World['horseFactor'] {
  const known = new Map<string, number>();
  return (horse, stage) => {
    const name = `${horse} ${stage}`;
    const factor = known.get(name) ?? chance(seedFor(barnSeed, name)).between(0.8, 1.25);
    known.set(name, factor);
    return factor;
  };
}

/** When the day's last lesson is over, ms; null: no lessons. */
export function lastLessonEnd({ day }: Board): number | null {
  const ends = Object.values(day.lessons)
    .filter((lesson) => !lesson.cancelled)
    .map(lessonEnd);
  return ends.length > 0 ? Math.max(...ends) : null;
}
