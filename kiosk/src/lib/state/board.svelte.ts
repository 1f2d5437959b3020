/** The board: as the hub confirmed it, and as it will be with this tablet's own taps. */
import { own } from '#core/barn/basics.ts';
import type { Board } from '#core/day/board.ts';
import type { Entry, Op, Reason } from '#core/day/ops.ts';
import type { Role } from '#core/day/places.ts';
import { redactBoard } from '#core/day/redact.ts';
import type { Forecast } from '#core/plan/model.ts';
import type { FromHub, Welcome } from '#core/wire/messages.ts';
import type * as play from './play.ts';

/** How boards change, once it is there. */
export type Play = typeof play;

export type Confirmed = { readonly journal: string; readonly seq: number; readonly board: Board };

type Answer = Extract<FromHub, { say: 'answered' }>['answers'][number];

export class BoardState {
  #role = $state<Role>('aisle');
  #play = $state.raw<Play | null>(null);
  #confirmed = $state.raw<Confirmed | null>(null);
  #forecast = $state.raw<Forecast | null>(null);
  /** In this tablet's outbox. */
  #open = $state.raw<readonly Op[]>([]);
  /** Of them, those that the confirmed board has: their answers are still to come. */
  #landed = $state.raw<ReadonlySet<string>>(new Set());
  /** Answered, but the entry that says so has not come yet: shown until it does. */
  #answered = $state.raw<readonly { op: Op; seq: number }[]>([]);
  readonly #waiting = $derived(this.#open.filter((op) => !this.#landed.has(op.id)));

  readonly #pending = $derived([
    ...this.#answered.filter(({ seq }) => seq > (this.#confirmed?.seq ?? 0)).map(({ op }) => op),
    ...this.#waiting,
  ]);
  readonly #shown = $derived(this.#confirmed && this.#played(this.#confirmed));
  readonly #pendingSubjects = $derived(this.#play?.pendingSubjects(this.#pending));

  /** How boards change: until it is known, entries must wait, and own taps are only counted. */
  learn(play: Play): void {
    this.#play = play;
  }

  get play(): Play | null {
    return this.#play;
  }

  get confirmed(): Confirmed | null {
    return this.#confirmed;
  }

  /** Confirmed state with this tablet's taps on top; null before the hub was first heard. */
  get shown(): Board | null {
    return this.#shown;
  }

  get forecast(): Forecast | null {
    return this.#forecast;
  }

  /** Taps the hub has not answered, as far as the confirmed board does not have them. */
  get waiting(): readonly Op[] {
    return this.#waiting;
  }

  /** Whether something on screen about this prep, horse, person or lesson still waits for the hub. */
  isPending(subject: string): boolean {
    return this.#pendingSubjects?.has(subject) ?? false;
  }

  /** Another role sees another board: what is here no longer counts. False: it is the role there was. */
  setRole(role: Role): boolean {
    if (role === this.#role) return false;
    this.forget();
    this.#role = role;
    return true;
  }

  forget(): void {
    this.#confirmed = null;
    this.#forecast = null;
    this.#answered = [];
  }

  /** The board and the forecast as `role` may see them, to be kept or shown where nobody is unlocked any more. */
  asSeenBy(role: Role): { confirmed: Confirmed | null; forecast: Forecast | null } {
    const [confirmed, forecast] = [this.#confirmed, this.#forecast];
    if (role === this.#role) return { confirmed, forecast };
    return {
      confirmed: confirmed && { ...confirmed, board: redactBoard(confirmed.board, role) },
      forecast: forecast && { ...forecast, hands: {} },
    };
  }

  /** `isAll`: with those of an earlier visit. */
  setWaiting(ops: readonly Op[], isAll = true): void {
    this.#open = ops;
    if (!isAll || this.#landed.size === 0) return;
    this.#landed = new Set(ops.flatMap(({ id }) => (this.#landed.has(id) ? id : [])));
  }

  /** Ids of unanswered taps that the confirmed board has, to be kept with it. */
  get landed(): readonly string[] {
    return [...this.#landed];
  }

  restore(confirmed: Confirmed, landed: readonly string[], forecast: Forecast | null): void {
    this.#confirmed = confirmed;
    this.#landed = new Set(landed);
    this.#forecast = forecast;
  }

  /** False when the welcome brings entries for a board this tablet does not have: it must ask again from nothing. */
  takeWelcome(welcome: Welcome): boolean {
    const { journal, seq, board, entries, landed } = welcome;
    if (board) {
      if (journal !== this.#confirmed?.journal) this.#forecast = null;
      this.#confirmed = { journal, seq, board };
      this.#landed = new Set(landed);
      return true;
    }
    if (journal !== this.#confirmed?.journal) return false;
    return this.takeEntries(entries) && this.#confirmed.seq === seq;
  }

  /** False when an entry is missing in between. */
  takeEntries(entries: readonly Entry[]): boolean {
    if (!this.#confirmed) return false;
    if (entries.length > 0 && !this.#play) throw new Error('entries before it is known how boards change');
    let { seq, board } = this.#confirmed;
    const before = seq;
    const landed: string[] = [];
    for (const entry of entries) {
      if (entry.seq <= seq) continue;
      if (entry.seq > seq + 1) return false;
      board = this.#play?.evolve(board, entry) ?? board;
      seq = entry.seq;
      if (this.#open.some((op) => op.id === entry.id)) landed.push(entry.id);
    }
    if (seq === before) return true;
    this.#confirmed = { ...this.#confirmed, seq, board };
    this.#answered = this.#answered.filter((one) => one.seq > seq);
    if (landed.length > 0) this.#landed = new Set([...this.#landed, ...landed]);
    return true;
  }

  /** To be called while the answered ops still wait. */
  takeAnswers(answers: readonly Answer[]): void {
    const seq = this.#confirmed?.seq ?? 0;
    const fresh = answers.flatMap((answer) => {
      const op = this.#waiting.find((one) => one.id === answer.id);
      return op && answer.seq > seq ? [{ op, seq: answer.seq }] : [];
    });
    this.#answered = [...this.#answered, ...fresh].sort((a, b) => a.seq - b.seq);
  }

  takeForecast(forecast: Forecast): void {
    this.#forecast = forecast;
  }

  /** In words; no more than its code before they are there. */
  explain(why: Reason): string {
    return this.#play?.explain(why, this.nameOf) ?? why.code;
  }

  #played({ board, seq }: Confirmed): Board {
    return this.#pending.length === 0 || !this.#play
      ? board
      : this.#play.pretend(board, seq, this.#pending, this.#role);
  }

  /** The name of whatever bears this id: horse, person, arena or lesson; the id itself when nothing does. */
  nameOf = (id: string): string => {
    const board = this.#shown;
    if (!board) return id;
    const { horses, volunteers, staff, arenas } = board.barn;
    const named = own(horses, id) ?? own(volunteers, id) ?? own(staff, id) ?? own(arenas, id);
    return named?.name ?? own(board.day.lessons, id)?.name ?? id;
  };
}
