/** What this tablet is to a hub with a gate: let in or not, unlocked by whom; and for the coordinator which others there are. */
import type { GateAnswer, GateOutcome, Here, KnownTablet, Wish } from '#core/wire/gate.ts';
import { UNTOUCHED_MS } from '#core/wire/locking.ts';
import type { FromTablet } from '#core/wire/messages.ts';
import { SECOND_MS } from '#core/time/units.ts';
import { newCode } from '../link/ownCode.ts';
import { Questions } from './questions.ts';

/** That somebody touches the glass is told the hub no more often. */
const TELL_EVERY_MS = 5 * SECOND_MS;

/** PINs are tried one after the other, on a small computer. */
const PATIENCE_MS = 15 * SECOND_MS;

export class Gate {
  readonly #send: (message: FromTablet) => boolean;
  readonly #locked: () => void;
  readonly #questions = new Questions<GateAnswer>(PATIENCE_MS);
  #here = $state.raw<Here | null>(null);
  #isUnknown = $state(false);
  #tablets = $state.raw<readonly KnownTablet[]>([]);
  #ownCode: string | null = null;
  #isOwnBarn = $state(false);
  #touchedAt = 0;
  #toldAt = -Infinity;
  #isLockOwed = false;

  /** `locked`: nobody is unlocked here, now or still; what only a coordinator may know is to go. */
  constructor(send: (message: FromTablet) => boolean, locked: () => void) {
    this.#send = send;
    this.#locked = locked;
  }

  /** Null: not heard yet, or the hub is open to all. */
  get here(): Here | null {
    return this.#here;
  }

  /** The hub does not let this tablet in. */
  get isUnknown(): boolean {
    return this.#isUnknown;
  }

  /** Until this is over, there is nothing to see here but how to pair. */
  get isPairing(): boolean {
    return this.#isUnknown || (this.#here !== null && this.#here.home === null);
  }

  /** Whether a coordinator has unlocked it. */
  get isUnlocked(): boolean {
    return this.#here !== null && this.#here.by !== null;
  }

  get tablets(): readonly KnownTablet[] {
    return this.#tablets;
  }

  /** False: it was locked here while the hub was away, and this welcome does not know. The hub is told, and welcomes again. */
  welcomed(here: Here | null): boolean {
    this.#isUnknown = false;
    if (here === null || here.by === null) this.#isLockOwed = false;
    if (this.#isLockOwed) {
      void this.ask({ to: 'lock' });
      return false;
    }
    this.#here = here;
    if (here === null || here.by === null) this.#tablets = [];
    if (here !== null && here.by === null) this.#locked();
    return true;
  }

  refused(): void {
    this.#isUnknown = true;
    this.#here = null;
    this.#tablets = [];
    this.#locked();
  }

  takeTablets(tablets: readonly KnownTablet[]): void {
    this.#tablets = tablets;
  }

  answered(answer: GateAnswer): void {
    this.#questions.answer(answer);
  }

  lost(): void {
    this.#questions.giveUp();
  }

  /** Null: the hub does not say. */
  async ask(wish: Wish): Promise<GateOutcome | null> {
    const answer = await this.#questions.ask((ask) => this.#send({ say: 'askGate', ask, wish }));
    return answer?.outcome ?? null;
  }

  /** `now`: monotonic ms. */
  touched(now: number): void {
    this.#touchedAt = now;
    if (!this.isUnlocked || now - this.#toldAt < TELL_EVERY_MS) return;
    if (this.#send({ say: 'touched' })) this.#toldAt = now;
  }

  /** Whether nobody has touched it for so long that it is to be locked. `now`: monotonic ms. */
  isLeft(now: number): boolean {
    return this.isUnlocked && now - this.#touchedAt > UNTOUCHED_MS;
  }

  /** The hub is told now, or when it is back. */
  lock(): void {
    if (!this.#here || this.#here.by === null) return;
    this.#here = { ...this.#here, by: null };
    this.#tablets = [];
    this.#isLockOwed = true;
    this.#locked();
    void this.ask({ to: 'lock' });
  }

  /** Whether this page began the barn. */
  get isOwnBarn(): boolean {
    return this.#isOwnBarn;
  }

  /** A code that this page gives to the barn it begins, to be let in by it. */
  makeOwnCode(): string {
    this.#ownCode ??= newCode();
    return this.#ownCode;
  }

  /** That code, once. */
  takeOwnCode(): string | null {
    const code = this.#ownCode;
    this.#ownCode = null;
    this.#isOwnBarn ||= code !== null;
    return code;
  }
}
