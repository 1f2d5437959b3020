/**
 * Which few moves of work would help most? The answer gets better with time: the best single move, the best two or
 * three, and the best of all plans that the search knows, pared down to the moves that matter. Nothing is ever moved
 * here: a person chooses.
 */
import { lowerBound } from '../search/bound.ts';
import { compile, type Model } from '../search/model.ts';
import { LatenessSearch } from '../search/lateness.ts';
import { Polish } from '../search/polish.ts';
import { compareObjectives, type Objective } from '../search/problem.ts';
import { seededRandom } from '../search/random.ts';
import type { Schedule } from '../search/schedule.ts';
import { toSolution } from '../search/solve.ts';
import { currentSchedule, dispatch, RULES } from '../search/start.ts';
import type { PlanInput } from '../model.ts';
import { NOBODY } from '../simulate/shop.ts';
import { HOUR_MS, MINUTE_MS, SECOND_MS } from '../../time/units.ts';
import { usable } from '../usable.ts';
import { findingRate } from './findingRate.ts';
import { MIN_GAIN_MS } from './minGain.ts';
import type { Alternative, Move, Rebalanced, Verdict, Worth } from './model.ts';
import { appliedAll, changesTo, pruned, type Change } from './moves.ts';
import { after, changesWorthATry, type State } from './oneMove.ts';
import { lessonChanges, outlookOf, personChanges, whyOf, type Outlook } from './outlook.ts';
import { range } from './range.ts';
import { toProblem, withoutDuties, type Planning } from './toProblem.ts';
import { Trial, type Value } from './trial.ts';

export type RebalanceOptions = {
  /** Same input, same seed, same number of steps: same answer. */
  readonly seed?: number;
  /** Chance that a feet check takes a horse off its lesson: see `findingRate`. */
  readonly findingRate?: number;
  /** A horse ready this long before its ramp time is ready in good time; ms. Common practice, no source. */
  readonly spareMs?: number;
};

/** Stops after so many steps, or as soon as `deadline` says so; without either, when there is no more to find. */
export type Budget = { readonly steps?: number; readonly deadline?: () => boolean };

/** Plays in one step, about 3 ms on a barn of 60 horses. */
const PLAYS_A_STEP = 24;
/** Iterations of the search in one step while it looks for the least late plan. */
const LATENESS_STEP = 60;
/** The search goes on for this long at most. */
const MOST_FOR_LATENESS = 10_000;
const MOST_FOR_THE_REST = 1_200;
/** Plans kept from which one more move is tried, after one move, after two, and after more. */
const BEAMS = [6, 3, 2] as const;
const MOST_MOVES = 8;

const SPARE_MS = 5 * MINUTE_MS;
const DAY_MS = 24 * HOUR_MS;

/** The best answer within `budget`. Deterministic unless a deadline cuts it short. Never throws. */
export function rebalance(input: PlanInput, options: RebalanceOptions & { budget: Budget }): Rebalanced {
  const { budget } = options;
  const steps = rebalanceSteps(input, options);
  for (let done = 1; ; done += 1) {
    const { value, done: ended } = steps.next();
    if (ended || done >= (budget.steps ?? Infinity) || budget.deadline?.() === true) return value;
  }
}

/** Each step takes a few ms and gives the best answer so far: the same object until there is a better one. */
export function* rebalanceSteps(
  input: PlanInput,
  options: RebalanceOptions = {},
): Generator<Rebalanced, Rebalanced> {
  const search = new Rebalancer(usable(input), options);
  yield search.answer();
  if (search.isSettled) return search.answer();
  search.begin();
  yield search.answer();
  const tasks = [search.fewMoves(), search.anyPlan()];
  while (tasks.length > 0 && !search.isSettled) {
    const task = tasks.shift();
    if (task?.next().done === false) tasks.push(task);
    yield search.answer();
  }
  return search.answer();
}

class Rebalancer {
  readonly #trial: Trial;
  readonly #planning: Planning;
  readonly #now: State;
  readonly #outlook: Outlook;
  readonly #giveOut: State | null;
  readonly #seed: number;
  #model: Model | null = null;
  /** -Infinity: unknown. */
  #boundMs = -Infinity;
  /** The bound if nobody worked while they are in a lesson, s. */
  #strictBound = -Infinity;
  /** Best with one move, with up to two, up to three, and with any number. */
  readonly #best: (State | null)[] = [null, null, null, null];
  #answer: Rebalanced | null = null;

  constructor(input: PlanInput, options: RebalanceOptions) {
    this.#seed = options.seed ?? 1;
    this.#trial = new Trial(input, {
      findingRate: within(options.findingRate, 1, findingRate(0, 0)),
      spareMs: within(options.spareMs, DAY_MS, SPARE_MS),
    });
    const { queues } = this.#trial;
    const value = this.#trial.run(queues);
    this.#now = { changes: [], queues, value };
    this.#outlook = outlookOf(this.#trial);
    this.#planning = toProblem(this.#trial);
    this.#giveOut = this.#nobodysGivenOut();
  }

  get #strictMs(): number {
    return this.#strictBound * SECOND_MS;
  }

  /** The bound, as far as it is quickly had. */
  begin(): void {
    const model = compile(this.#planning.problem);
    if (model.kind === 'refused') return;
    this.#model = model;
    const bound = lowerBound(model);
    // Not everything finds room before people go: of what does, nothing is known.
    if (bound * SECOND_MS > 2 * DAY_MS) return;
    this.#strictBound = bound;
    this.#boundMs = Math.min(this.#strictMs, ...this.#planning.exceptions.map(({ lateMs }) => lateMs));
    this.#answer = null;
  }

  /** A plan either makes one of the exceptions left in, and is later than the bound, or is held by this one. */
  #tightenBound(): void {
    if (this.#boundMs >= this.#strictMs) return;
    const model = compile(withoutDuties(this.#planning, this.#strictMs));
    if (model.kind === 'refused') return;
    const bound = Math.min(this.#strictMs, lowerBound(model) * SECOND_MS);
    if (bound <= this.#boundMs) return;
    this.#boundMs = bound;
    this.#answer = null;
  }

  /** Nothing can be gained, or it is known that nothing more can. */
  get isSettled(): boolean {
    const verdict = this.#verdict();
    return verdict === 'nothingToDo' || verdict === 'inTime' || verdict === 'provenBest';
  }

  answer(): Rebalanced {
    this.#answer ??= this.#assemble();
    return this.#answer;
  }

  /** All single moves worth a try, then one more from the best of them, and so on while that helps. */
  *fewMoves(): Generator<undefined, void> {
    const least = (): State => this.#best.at(-1) ?? this.#now;
    let from = [this.#now];
    for (let moves = 1; moves <= MOST_MOVES; moves += 1) {
      const before = least();
      const beam: State[] = [];
      for (const state of from) {
        this.#trial.run(state.queues);
        const changes = changesWorthATry(this.#trial, state.queues);
        for (const [i, change] of changes.entries()) {
          const next = after(this.#trial, state, change);
          this.#offer(next);
          insert(beam, next, BEAMS[moves - 1] ?? BEAMS.at(-1) ?? 1, (a, b) => this.#compare(a, b));
          if (i % PLAYS_A_STEP === PLAYS_A_STEP - 1) yield;
        }
        yield;
      }
      if (moves > BEAMS.length && this.#trial.compareMain(least().value, before.value) >= 0) return;
      from = beam;
    }
  }

  /** The search's plans, each pared down to the changes that matter: first the least late, then the rest. */
  *anyPlan(): Generator<undefined, void> {
    this.#tightenBound();
    yield;
    const model = this.#model;
    if (!model || model.n === 0) return;
    const random = seededRandom(this.#seed);
    const current = currentSchedule(model);
    const starts = current ? [current] : [];
    yield;
    for (const rule of RULES) {
      starts.push(dispatch(model, rule, random));
      yield;
    }
    const late = new LatenessSearch(model, starts, this.#strictBound, random);
    for (let done = 0, last = Infinity; ; done += LATENESS_STEP) {
      if (late.best.lateness < last) yield* this.#tryPlan(late.best);
      last = late.best.lateness;
      if (last <= this.#strictBound || late.stuck || done >= MOST_FOR_LATENESS) break;
      late.run(LATENESS_STEP);
      yield;
    }
    const polish = new Polish(late.best, random);
    for (const start of starts) polish.offer(start);
    for (let done = 0, last: Objective | null = null; done < MOST_FOR_THE_REST; done += 1) {
      if (!last || compareObjectives(polish.bestValue, last) < 0) yield* this.#tryPlan(polish.best);
      last = polish.bestValue;
      if (polish.perfect) return;
      polish.step();
      yield;
    }
  }

  *#tryPlan(schedule: Schedule): Generator<undefined, void> {
    const { sequences } = toSolution(schedule, this.#strictBound);
    const { begunBy, shop } = this.#trial;
    const wanted = sequences.map((refs) =>
      refs.flatMap(({ job, operation }) => {
        const p = this.#planning.pieceOf[job]?.[operation];
        return p === undefined || begunBy[p] !== NOBODY ? [] : [p];
      }),
    );
    const changes = changesTo(this.#now.queues, wanted, shop.workOf);
    const whole = this.#stateOf(changes).value;
    const least = this.#best.at(-1) ?? this.#now;
    if (this.#trial.compareMain(whole, least.value) >= 0) return;
    const valueOf = (some: readonly Change[]): Value => this.#stateOf(some).value;
    const isAsGood = (some: readonly Change[]): boolean => this.#trial.compareMain(valueOf(some), whole) <= 0;
    const kept = yield* pruned(changes, isAsGood, PLAYS_A_STEP);
    this.#offer(this.#stateOf(kept));
    // Fewer moves for less than anybody would notice.
    const isNearly = (some: readonly Change[]): boolean =>
      !this.#trial.isWorthwhile(valueOf(some), whole, MIN_GAIN_MS);
    this.#offer(this.#stateOf(yield* pruned(kept, isNearly, PLAYS_A_STEP)));
  }

  #stateOf(changes: readonly Change[]): State {
    const queues = appliedAll(this.#now.queues, changes);
    return { changes, queues, value: this.#trial.run(queues) };
  }

  /** Takes `state` for the best of those with as many moves, and with more, if it is. */
  #offer(state: State): void {
    if (state.changes.length === 0) return;
    for (let i = Math.min(state.changes.length, this.#best.length) - 1; i < this.#best.length; i += 1) {
      const best = this.#best[i];
      if (best && this.#compare(state, best) >= 0) continue;
      this.#best[i] = state;
      this.#answer = null;
    }
  }

  #compare(a: State, b: State): number {
    return (
      this.#trial.compareMain(a.value, b.value) ||
      a.changes.length - b.changes.length ||
      this.#peopleIn(a.changes).size - this.#peopleIn(b.changes).size ||
      this.#trial.compare(a.value, b.value) ||
      // What is done last is least in anybody's mind yet.
      this.#soonestMoved(b.changes) - this.#soonestMoved(a.changes)
    );
  }

  /** When the first of the moved pieces would be begun as things stand, ms after now. */
  #soonestMoved(changes: readonly Change[]): number {
    const starts = changes.flatMap(({ pieces }) => pieces.map((p) => this.#outlook.start[p] ?? 0));
    // Never begun: later than anything.
    return Math.min(Number.MAX_VALUE, ...starts);
  }

  #ownerOf(p: number): number {
    return this.#now.queues.findIndex((queue) => queue.includes(p));
  }

  /** Whose queue the changes touch. */
  #peopleIn(changes: readonly Change[]): Set<number> {
    const people = new Set(changes.flatMap(({ pieces, to }) => [to, ...pieces.map((p) => this.#ownerOf(p))]));
    people.delete(NOBODY);
    return people;
  }

  /** What is nobody's goes to whoever is seen to take it, where they take it. */
  #nobodysGivenOut(): State | null {
    const { shop, play, begunBy } = this.#trial;
    const given = new Set(this.#now.queues.flat());
    const wanted = this.#now.queues.map((queue, w) => {
      const mine = range(0, shop.pieceCount).filter((p) => play.by[p] === w && begunBy[p] === NOBODY);
      const inTurn = mine.sort((a, b) => (play.start[a] ?? 0) - (play.start[b] ?? 0));
      const taken = inTurn.filter((p) => !given.has(p));
      // In front of the first of their own that they do after it.
      return taken.reduceRight<number[]>(
        (list, p) => {
          const next = inTurn.slice(inTurn.indexOf(p) + 1).find((x) => list.includes(x));
          const at = next === undefined ? list.length : list.indexOf(next);
          return list.toSpliced(at, 0, p);
        },
        [...queue],
      );
    });
    const changes = changesTo(this.#now.queues, wanted, shop.workOf);
    if (changes.length === 0) return null;
    const state = this.#stateOf(changes);
    return this.#trial.compareMain(state.value, this.#now.value) > 0 ? null : state;
  }

  #giveOutAlternative(): Alternative | null {
    if (!this.#giveOut) return null;
    const pieces = this.#giveOut.changes.reduce((sum, change) => sum + change.pieces.length, 0);
    return { ...this.#alternative(this.#giveOut), why: { gain: { code: 'givenOut', pieces }, later: null } };
  }

  #alternative(state: State): Alternative {
    const trial = this.#trial;
    trial.run(state.queues);
    const then = outlookOf(trial);
    return {
      moves: this.#moves(state.changes),
      why: whyOf(trial, this.#outlook, then),
      worth: worthOf(state.value),
      lessons: lessonChanges(trial, this.#outlook, then),
      people: personChanges(trial, this.#outlook, then, this.#peopleIn(state.changes)),
      proven: this.#isProven(state.value),
    };
  }

  /** One `workMoved` each; pieces taken from different people are different moves. */
  #moves(changes: readonly Change[]): Move[] {
    const { shop, input } = this.#trial;
    let queues = this.#now.queues;
    const ownerNow = (p: number): number => queues.findIndex((queue) => queue.includes(p));
    return changes.flatMap((change) => {
      const stretches: number[][] = [];
      for (const p of change.pieces) {
        const last = stretches.at(-1);
        if (last && ownerNow(last[0] ?? NOBODY) === ownerNow(p)) last.push(p);
        else stretches.push([p]);
      }
      const next = shop.pieces[change.before];
      const moves = stretches.map((stretch): Move => {
        const pieces = stretch.flatMap((p) => shop.pieces[p] ?? []);
        return {
          pieces: pieces.map((piece) => piece.id),
          prep: pieces[0]?.prep ?? '',
          horse: pieces[0]?.horse ?? '',
          stages: pieces.map((piece) => piece.stage),
          from: input.workers[ownerNow(stretch[0] ?? NOBODY)]?.id ?? null,
          to: input.workers[change.to]?.id ?? '',
          before: next?.id ?? null,
          beforeHorse: next?.horse ?? null,
        };
      });
      queues = appliedAll(queues, [change]);
      return moves;
    });
  }

  #isProven(value: Value): boolean {
    if (value.undone > this.#planning.cannot.length) return false;
    return Math.round(this.#trial.counted(value) - this.#countedBound()) < MIN_GAIN_MS;
  }

  #countedBound(): number {
    return Math.max(this.#boundMs, -this.#trial.options.spareMs);
  }

  /** Found by those with fewer moves first; the next must be better by enough again. */
  #worthwhile(): State[] {
    const chosen: State[] = [];
    let least = this.#now;
    for (const state of this.#best) {
      if (!state || !this.#trial.isWorthwhile(least.value, state.value, MIN_GAIN_MS)) continue;
      chosen.push(state);
      least = state;
    }
    return chosen;
  }

  #verdict(): Verdict {
    const { value } = this.#now;
    if (this.#trial.input.works.every((work) => work.pieces.length === 0)) return 'nothingToDo';
    const { spareMs } = this.#trial.options;
    if (value.undone === 0 && value.lateness <= -spareMs && value.tardiness < MIN_GAIN_MS) return 'inTime';
    if (this.#worthwhile().length > 0) return 'better';
    const leastTardy = Math.max(0, this.#boundMs);
    if (this.#isProven(value) && value.tardiness - leastTardy < MIN_GAIN_MS) return 'provenBest';
    return 'noBetterFound';
  }

  #assemble(): Rebalanced {
    const { input } = this.#trial;
    return {
      asOf: input.now,
      verdict: this.#verdict(),
      now: worthOf(this.#now.value),
      boundMs: Number.isFinite(this.#boundMs) ? Math.round(this.#boundMs) : null,
      proven: this.#isProven(this.#now.value),
      alternatives: this.#worthwhile().map((state) => this.#alternative(state)),
      giveOut: this.#giveOutAlternative(),
      cannot: [...this.#planning.cannot],
      leftOut: [...input.leftOut],
    };
  }
}

/** `value` from 0 to `most`; `usual` when it is no number. */
function within(value: number | undefined, most: number, usual: number): number {
  return value === undefined || Number.isNaN(value) ? usual : Math.min(most, Math.max(0, value));
}

function worthOf({ undone, lateness, tardiness }: Value): Worth {
  return {
    undone,
    latenessMs: Number.isFinite(lateness) ? Math.round(lateness) : null,
    tardinessMs: Math.round(tardiness),
  };
}

/** Keeps the best `most`, best first. */
function insert(states: State[], state: State, most: number, compare: (a: State, b: State) => number): void {
  const at = states.findIndex((other) => compare(state, other) < 0);
  if (at >= 0) states.splice(at, 0, state);
  else states.push(state);
  if (states.length > most) states.pop();
}
