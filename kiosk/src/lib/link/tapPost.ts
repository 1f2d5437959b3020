/**
 * The way of this tablet's taps to the hub: kept in the outbox that all its tabs share, sent by the tab that leads, held
 * back while the hub writes nothing down, forgotten once answered, in every tab.
 */
import type { Op } from '#core/day/ops.ts';
import type { FromTablet } from '#core/wire/messages.ts';
import type { Lead } from './lead.ts';
import { neighboursOver, type Answers, type Channel, type Neighbours } from './neighbours.ts';
import { memoryStore, Outbox, type OutboxStore } from './outbox.ts';

export type Keeping = {
  /** Null: this browser keeps nothing. */
  readonly store: OutboxStore | null;
  /** Null: tabs of this browser cannot agree. */
  readonly lead: Lead | null;
};

export type TapPostParts = {
  /** Asked for when it is first needed; rejects while its program cannot be fetched. */
  readonly keeping: () => Promise<Keeping>;
  /** Null: tabs of this browser cannot talk; then each sends for itself. */
  readonly channel: Channel | null;
};

export type TapPostEvents = {
  readonly send: (message: FromTablet) => boolean;
  readonly changed: () => void;
  /** Another tab was told these answers. */
  readonly answeredElsewhere: (answers: Answers) => void;
};

/** For a browser that lets tabs neither agree nor talk. */
const loneLead: Lead = { start: (onChange) => onChange(true), stepBack: () => {} };

export class TapPost {
  readonly #parts: TapPostParts;
  readonly #on: TapPostEvents;
  readonly #outbox: Outbox;
  readonly #neighbours: Neighbours | null;
  readonly #memory = memoryStore();
  #keeping: Promise<Keeping> | null = null;
  #opening: Promise<void> | null = null;
  #lead = loneLead;
  #keeps = true;
  #isOpen = false;
  #leads = false;
  /** Counts the changes of lead. */
  #turn = 0;
  #isLive = false;
  #isHeld = false;

  constructor(parts: TapPostParts, on: TapPostEvents) {
    const { channel } = parts;
    this.#parts = parts;
    this.#on = on;
    // A tap made before the store is there waits for it, and so do those after it.
    const store: OutboxStore = {
      all: async () => (await this.#store()).all(),
      add: async (op) => (await this.#store()).add(op),
      remove: async (ids) => (await this.#store()).remove(ids),
    };
    this.#outbox = new Outbox(store, () => this.#changed());
    this.#neighbours =
      channel &&
      neighboursOver(channel, {
        kept: (op) => this.#outbox.adopt(op),
        answered: (answers) => {
          on.answeredElsewhere(answers);
          this.#outbox.answeredElsewhere(answers.map(({ id }) => id));
        },
      });
  }

  /** Resolves once the taps of an earlier visit are back. Rejects when their store cannot be fetched now: to be tried again. */
  open(): Promise<void> {
    this.#opening ??= this.#open().catch((why: unknown) => {
      this.#opening = null;
      // Nobody else is known of, and what is tapped here is sent all the same.
      void this.#leadChanged(true);
      throw why;
    });
    return this.#opening;
  }

  /** Whether `ops` has what an earlier visit left. */
  get isOpen(): boolean {
    return this.#isOpen;
  }

  /** Unanswered taps of all tabs, in order. */
  get ops(): readonly Op[] {
    return this.#outbox.ops;
  }

  /** False when a reload would lose a tap. */
  get isKeeping(): boolean {
    return this.#keeps && this.#outbox.isKept;
  }

  /** Whether the page may be loaded anew without losing a tap. */
  get isSafe(): boolean {
    return this.#keeps ? this.#outbox.isAllStored : this.#outbox.ops.length === 0;
  }

  add(op: Op): void {
    // The others hear of it once it is stored, so that they never know more than a reload would bring back.
    void this.#outbox.add(op).then(() => this.#neighbours?.kept(op));
  }

  /** The hub has welcomed this tab, and asks for what it has not answered. */
  welcomed(): void {
    this.#isLive = true;
    this.#isHeld = false;
    this.#outbox.connectionLost();
    this.#pump();
  }

  lost(): void {
    this.#isLive = false;
    this.#outbox.connectionLost();
  }

  /** The hub writes nothing down: nothing more is sent until it welcomes again, or `release`. */
  hold(): void {
    this.#isHeld = true;
    this.#outbox.connectionLost();
  }

  release(): void {
    if (!this.#isHeld) return;
    this.#isHeld = false;
    this.#pump();
  }

  answered(answers: Answers): void {
    void this.#outbox.answered(answers.map(({ id }) => id));
    this.#neighbours?.answered(answers);
  }

  /** Of a frame that was not taken; what was taken before is answered as then. */
  sendAgain(): void {
    this.#outbox.connectionLost();
    this.#pump();
  }

  /** The page is hidden. */
  stepBack(): void {
    this.#lead.stepBack();
  }

  async #open(): Promise<void> {
    const { lead } = await this.#kept();
    await this.#readStore();
    this.#isOpen = true;
    this.#on.changed();
    this.#leads = false;
    this.#lead = (this.#parts.channel && lead) ?? loneLead;
    this.#lead.start((leads) => void this.#leadChanged(leads));
  }

  #kept(): Promise<Keeping> {
    this.#keeping ??= this.#parts.keeping().catch((why: unknown) => {
      this.#keeping = null;
      throw why;
    });
    return this.#keeping;
  }

  async #store(): Promise<OutboxStore> {
    const { store } = await this.#kept();
    this.#keeps = store !== null;
    return store ?? this.#memory;
  }

  async #leadChanged(leads: boolean): Promise<void> {
    this.#turn += 1;
    const turn = this.#turn;
    this.#leads = false;
    if (!leads) return;
    await this.#readStore();
    // It may have been lost, or lost and taken again, in the meantime.
    if (turn !== this.#turn) return;
    // What this tab sent when it led before may have been sent over a line that is gone since.
    this.#outbox.connectionLost();
    this.#leads = true;
    this.#pump();
  }

  async #readStore(): Promise<void> {
    try {
      await this.#outbox.open();
    } catch {
      // What the store will not give now comes with the next visit.
    }
  }

  #changed(): void {
    this.#on.changed();
    this.#pump();
  }

  #pump(): void {
    if (!this.#isLive || !this.#leads || this.#isHeld) return;
    for (let ops = this.#outbox.takeFrame(); ops.length > 0; ops = this.#outbox.takeFrame()) {
      this.#on.send({ say: 'taps', ops });
    }
  }
}
