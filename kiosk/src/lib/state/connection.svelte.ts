/** Whether the hub is there, since when not, and what this page is to the hub. */
export class Connection {
  #isLive = $state(false);
  /** Hub time at which the hub was last heard; null: never. */
  #heardAt = $state<number | null>(null);
  #isDemo = $state(false);
  #addresses = $state.raw<readonly string[]>([]);
  #isKeeping = $state(true);

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

  heard(at: number): void {
    this.#heardAt = at;
  }

  welcomed(demo: boolean, addresses: readonly string[]): void {
    this.#isLive = true;
    this.#isDemo = demo;
    this.#addresses = addresses;
  }

  remember(heardAt: number, demo: boolean): void {
    this.#heardAt = heardAt;
    this.#isDemo = demo;
  }

  lost(): void {
    this.#isLive = false;
  }

  cannotKeep(): void {
    this.#isKeeping = false;
  }
}
