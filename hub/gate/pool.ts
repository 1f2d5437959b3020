/** Room for those whom nobody knows yet: shared out by address, so that whoever takes most of it gives way first. */

export class Pool<One> {
  readonly #most: number;
  readonly #perAddress: number;
  readonly #end: (one: One) => void;
  /** Of each address, the oldest first. */
  readonly #from = new Map<string, Set<One>>();
  #size = 0;

  /** `end` is called for those that give way. */
  constructor(most: number, perAddress: number, end: (one: One) => void) {
    this.#most = most;
    this.#perAddress = perAddress;
    this.#end = end;
  }

  /** Takes one in; what gives way is the oldest of its own address beyond its share, or of the address that has most. */
  add(one: One, address: string): void {
    const own = this.#from.get(address) ?? new Set();
    if (own.size >= this.#perAddress) this.#drop(address);
    else if (this.#size >= this.#most) this.#drop(this.#crowded());
    this.#from.set(address, own.add(one));
    this.#size += 1;
  }

  /** It is known now, or gone. */
  remove(one: One, address: string): void {
    const own = this.#from.get(address);
    if (!own?.delete(one)) return;
    this.#size -= 1;
    if (own.size === 0) this.#from.delete(address);
  }

  #crowded(): string {
    let most = '';
    for (const [address, { size }] of this.#from) {
      if (size > (this.#from.get(most)?.size ?? 0)) most = address;
    }
    return most;
  }

  #drop(address: string): void {
    const [oldest] = this.#from.get(address) ?? [];
    if (oldest === undefined) return;
    this.remove(oldest, address);
    this.#end(oldest);
  }
}
