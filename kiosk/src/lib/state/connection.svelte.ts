/** Whether the hub is there, since when not, how it is, and what this page is to it. */
import type { Status } from '#core/wire/messages.ts';

export class Connection {
  #isLive = $state(false);
  /** Hub time at which the hub was last heard; null: never. */
  #heardAt = $state<number | null>(null);
  #isDemo = $state(false);
  #addresses = $state.raw<readonly string[]>([]);
  #isKeeping = $state(true);
  #status = $state.raw<Status | null>(null);
  #isUnreadable = $state(false);

  get isLive(): boolean {
    return this.#isLive;
  }

  get heardAt(): number | null {
    return this.#heardAt;
  }

  get isDemo(): boolean {
    return this.#isDemo;
  }

  /** Where other tablets find this hub. */
  get addresses(): readonly string[] {
    return this.#addresses;
  }

  /** False when this browser cannot keep taps over a reload. */
  get isKeeping(): boolean {
    return this.#isKeeping;
  }

  /** How the hub says it is; null when it is away or has not said. */
  get status(): Status | null {
    return this.#isLive ? this.#status : null;
  }

  /** The hub says what this page cannot read. */
  get isUnreadable(): boolean {
    return this.#isUnreadable;
  }

  takeStatus(status: Status): void {
    this.#status = status;
  }

  cannotRead(): void {
    this.#isUnreadable = true;
  }

  heard(at: number): void {
    this.#heardAt = at;
  }

  welcomed(demo: boolean, addresses: readonly string[]): void {
    this.#isLive = true;
    this.#isUnreadable = false;
    this.#isDemo = demo;
    this.#addresses = addresses;
  }

  remember(heardAt: number, demo: boolean): void {
    this.#heardAt = heardAt;
    this.#isDemo = demo;
  }

  /** The hub does not know this tablet: what it said before is none of its business any more. */
  forget(): void {
    this.#heardAt = null;
    this.#isDemo = false;
    this.#addresses = [];
  }

  lost(): void {
    this.#isLive = false;
  }

  cannotKeep(): void {
    this.#isKeeping = false;
  }
}
