/**
 * The gate of a barn: the list of its tablets, who has unlocked which, and the codes by which a tablet comes onto the list.
 * What it is asked over sockets stands in `wishes.ts`, over HTTP in `pairing.ts`.
 */
import { randomBytes } from 'node:crypto';
import type { IncomingMessage } from 'node:http';
import type { Forgotten } from '#core/day/forget.ts';
import type { TabletPlace } from '#core/day/places.ts';
import { MINUTE_MS, SECOND_MS } from '#core/time/units.ts';
import type { Here } from '#core/wire/gate.ts';
import { restingPlace, UNTOUCHED_MS } from '#core/wire/locking.ts';
import type { Admission, Coordinator, RoomGate, Who } from '../gate.ts';
import type { Audit } from './audit.ts';
import { Codes } from './codes.ts';
import type { GateStore } from './gateFile.ts';
import { Pins, type PinTry } from './pins.ts';
import type { GateRecord, KnownTablet } from './record.ts';
import { hashOf, isSameHash, newToken, tokenIn } from './token.ts';

export type KeeperParts = {
  readonly record: GateRecord;
  readonly store: GateStore;
  readonly audit: Audit;
  /** Hub time in ms. */
  readonly clock: () => number;
  /** The barn's coordinators, as its records have them. */
  readonly staff: () => readonly Coordinator[];
  /** Of the hub; the cookie's name has it. */
  readonly port: () => number;
  /** Shows a code on the hub's own console; null: none is needed any more. */
  readonly showCode: (code: string | null) => void;
};

/** Somebody at the hub is needed while it has no tablet or no coordinator: then its console shows a code. */
const LOOK_EVERY_MS = SECOND_MS;

/** When a tablet was seen last is no reason to write more often. */
const SEEN_EVERY_MS = 10 * MINUTE_MS;

/** A disk that did not take the list is tried again. */
const AGAIN_MS = 30 * SECOND_MS;

export class Keeper implements RoomGate {
  readonly codes: Codes;
  readonly audit: Audit;
  readonly #parts: KeeperParts;
  readonly #pins: Pins;
  readonly #unlocked = new Map<string, { readonly by: string; readonly until: number }>();
  #record: GateRecord;
  #writing: Promise<void> = Promise.resolve();
  #isOwed = false;
  #writtenAt: number;
  /** Null: none is shown. */
  #codeShownUntil: number | null = 0;
  #changed: (device: string | null) => void = () => {};
  #timer: NodeJS.Timeout | undefined;

  constructor(parts: KeeperParts) {
    this.#parts = parts;
    this.#record = parts.record;
    this.#writtenAt = parts.clock();
    this.audit = parts.audit;
    this.codes = new Codes(parts.clock);
    this.#pins = new Pins({
      clock: parts.clock,
      tries: () => this.#record.tries,
      setTries: (tries) => this.save({ ...this.#record, tries }),
    });
  }

  /** `changed`: as what this tablet is heard, or null: something that concerns all of them. */
  start(changed: (device: string | null) => void): void {
    this.#changed = changed;
    // After whatever the console says first.
    setImmediate(() => this.#look());
    this.#timer = setInterval(() => this.#look(), LOOK_EVERY_MS);
  }

  async stop(): Promise<void> {
    clearInterval(this.#timer);
    this.#hideCode();
    await this.save(this.#record).catch(() => {});
    await this.audit.settle();
  }

  get record(): GateRecord {
    return this.#record;
  }

  /** Takes effect at once; resolves when it is on disk, and rejects when it cannot be written, to be tried again later. */
  save(record: GateRecord): Promise<void> {
    this.#record = record;
    this.#isOwed = true;
    this.#writtenAt = this.#parts.clock();
    this.#writing = this.#writing
      .catch(() => {})
      .then(async () => {
        const now = this.#record;
        await this.#parts.store.write(now);
        if (now === this.#record) this.#isOwed = false;
      });
    return this.#writing;
  }

  who(request: IncomingMessage): Who {
    const tablet = this.#byToken(this.tokenIn(request));
    if (!tablet) return { is: 'nobody' };
    const { place, by } = this.#heardAs(tablet);
    return { is: 'tablet', device: tablet.id, place, by };
  }

  tokenIn(request: Pick<IncomingMessage, 'headers'>): string | null {
    return tokenIn(request, this.#parts.port());
  }

  admit(token: string | null): Admission | null {
    const tablet = this.#byToken(token);
    return tablet && this.#admission(tablet);
  }

  now(device: string): Admission | null {
    const tablet = this.tablet(device);
    return tablet && this.#admission(tablet);
  }

  tablet(device: string): KnownTablet | null {
    return this.#record.tablets.find(({ id }) => id === device) ?? null;
  }

  get tablets(): readonly KnownTablet[] {
    return this.#record.tablets;
  }

  /** Those among the staff who have a PIN: whoever is taken out of the records can unlock nothing any more. */
  get coordinators(): Coordinator[] {
    return this.#parts.staff().filter(({ id }) => Object.hasOwn(this.#record.pins, id));
  }

  seen(device: string): void {
    const seenAt = this.#parts.clock();
    const tablets = this.#record.tablets.map((one) => (one.id === device ? { ...one, seenAt } : one));
    this.#record = { ...this.#record, tablets };
  }

  /**
   * Puts a tablet onto the list, in the place of the one that shows `oldToken`. `atHub`: by somebody who stands at the hub.
   * Resolves with its new token once that is on disk.
   */
  async pair(oldToken: string | null, atHub: boolean): Promise<{ token: string; device: string }> {
    const now = this.#parts.clock();
    const before = this.#byToken(oldToken);
    const token = newToken();
    const tablet: KnownTablet = {
      id: before?.id ?? `t-${randomBytes(6).toString('hex')}`,
      name: before?.name ?? String(this.#record.tablets.length + 1),
      place: before?.place ?? null,
      tokenHash: hashOf(token),
      pairedAt: now,
      seenAt: now,
      atHub,
    };
    const others = this.#record.tablets.filter(({ id }) => id !== tablet.id);
    await this.save({ ...this.#record, tablets: [...others, tablet] });
    this.#codeShownUntil = 0;
    this.#changed(null);
    return { token, device: tablet.id };
  }

  /** Its connections end, and its token is worth nothing from now on. */
  strikeOff(device: string): Promise<void> {
    this.#unlocked.delete(device);
    const { [device]: _gone, ...tries } = this.#record.tries.tablets;
    const written = this.save({
      ...this.#record,
      tablets: this.#record.tablets.filter(({ id }) => id !== device),
      tries: { ...this.#record.tries, tablets: tries },
    });
    this.#changed(device);
    return written;
  }

  hang(device: string, name: string, place: TabletPlace): Promise<void> {
    const tablets = this.#record.tablets.map((one) => (one.id === device ? { ...one, name, place } : one));
    const written = this.save({ ...this.#record, tablets });
    this.#changed(device);
    return written;
  }

  tryPin(one: PinTry): ReturnType<Pins['try']> {
    return this.#pins.try(one);
  }

  unlock(device: string, by: string): void {
    this.#unlocked.set(device, { by, until: this.#parts.clock() + UNTOUCHED_MS });
    this.#changed(device);
  }

  lock(device: string): void {
    if (this.#unlocked.delete(device)) this.#changed(device);
  }

  touched(device: string): void {
    const open = this.#open(device);
    if (open) this.#unlocked.set(device, { ...open, until: this.#parts.clock() + UNTOUCHED_MS });
  }

  /** Their PINs go, and what they have unlocked is locked. On disk when this resolves. */
  async forget(people: readonly Forgotten[]): Promise<void> {
    const isTheirs = (id: string): boolean => people.some((one) => one.id === id);
    for (const [device, { by }] of this.#unlocked) if (isTheirs(by)) this.lock(device);
    const left = Object.entries(this.#record.pins).filter(([id]) => !isTheirs(id));
    await this.save({ ...this.#record, pins: Object.fromEntries(left) });
    await this.audit.forget(people);
    this.#changed(null);
  }

  /** Something about the coordinators has changed. */
  coordinatorsChanged(): void {
    this.#changed(null);
  }

  #byToken(token: string | null): KnownTablet | null {
    if (token === null) return null;
    const hash = hashOf(token);
    let found: KnownTablet | null = null;
    // All of them, whichever it is.
    for (const one of this.#record.tablets) if (isSameHash(one.tokenHash, hash)) found = one;
    return found;
  }

  #open(device: string): { by: string; until: number } | null {
    const open = this.#unlocked.get(device);
    if (!open || open.until <= this.#parts.clock()) return null;
    return this.coordinators.some(({ id }) => id === open.by) ? open : null;
  }

  #heardAs({ id, place }: KnownTablet): { place: TabletPlace; by: string | null } {
    const open = place && this.#open(id);
    if (open) return { place: { role: 'coordinator' }, by: open.by };
    return { place: restingPlace(place), by: null };
  }

  #admission(tablet: KnownTablet): Admission {
    const { id: device, name, place: home } = tablet;
    const heard = this.#heardAs(tablet);
    const coordinators = this.coordinators.map(({ id, name: called }) => ({ id, name: called }));
    const here: Here = { device, name, home, ...heard, coordinators };
    return { device, ...heard, here };
  }

  #hideCode(): void {
    if (this.#codeShownUntil !== null) this.#parts.showCode(null);
    this.#codeShownUntil = null;
  }

  #look(): void {
    const now = this.#parts.clock();
    for (const device of this.#unlocked.keys()) if (!this.#open(device)) this.lock(device);
    const sinceMs = now - this.#writtenAt;
    if (sinceMs > (this.#isOwed ? AGAIN_MS : SEEN_EVERY_MS)) void this.save(this.#record).catch(() => {});
    const isNeeded = this.#record.tablets.length === 0 || this.coordinators.length === 0;
    if (!isNeeded) return this.#hideCode();
    if (now < (this.#codeShownUntil ?? 0)) return;
    const { digits, until } = this.codes.make(true);
    this.#codeShownUntil = until;
    this.#parts.showCode(digits);
  }
}
