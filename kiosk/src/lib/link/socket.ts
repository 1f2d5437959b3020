/**
 * The line to the hub: dials, says hello, listens, notices silence, and dials again with growing, jittered pauses for as
 * long as it is wanted. Transport, timers and chance come in as arguments.
 */
import type { FromHub, FromTablet } from '#core/wire/messages.ts';

/** One connection. */
export type Line = { readonly send: (text: string) => void; readonly close: () => void };

export type LineEvents = {
  readonly opened: () => void;
  readonly said: (text: string) => void;
  readonly closed: () => void;
};

export type Surroundings = {
  readonly dial: (on: LineEvents) => Line;
  /** The message in a frame; null when it is none that is understood here. */
  readonly read: (text: string) => FromHub | null;
  /** Calls back once after `ms`; returns how to call it off. */
  readonly after: (ms: number, run: () => void) => () => void;
  /** 0 … 1. */
  readonly random: () => number;
};

export type HubEvents = {
  readonly hello: () => FromTablet;
  /** What a ping carries. */
  readonly ping: () => FromTablet;
  readonly said: (message: FromHub) => void;
  /** The hub said something that this page cannot read: it may be a newer one. */
  readonly unreadable?: () => void;
  readonly lost: () => void;
};

const FIRST_PAUSE_MS = 400;
const LONGEST_PAUSE_MS = 8000;

/** Pings come close together at first, for a good clock soon; then they also prove that the line is alive. */
const QUICK_PINGS = 4;
const QUICK_PING_MS = 250;
const PING_MS = 4000;

/** No word for this long, while pings are out: the line is dead though nothing closed it. */
const SILENCE_MS = 10_000;

/** The pause before attempt `n` (0: the first again): half of it fixed, half by chance, so that tablets do not crowd. */
export function pauseMs(attempt: number, random: number): number {
  const full = Math.min(LONGEST_PAUSE_MS, FIRST_PAUSE_MS * 2 ** attempt);
  return full / 2 + (full / 2) * random;
}

export class HubSocket {
  readonly #around: Surroundings;
  readonly #on: HubEvents;
  #line: Line | null = null;
  #isOpen = false;
  #attempt = 0;
  #pings = 0;
  #stopWaiting: (() => void)[] = [];

  constructor(around: Surroundings, on: HubEvents) {
    this.#around = around;
    this.#on = on;
  }

  start(): void {
    if (this.#line === null) this.#dial();
  }

  stop(): void {
    this.#drop();
  }

  /** Dials at once: the tablet woke up, or its place changed. */
  again(): void {
    this.#drop();
    this.#attempt = 0;
    this.#dial();
  }

  /** Asks for the time at once, some times over: the device may have slept, or the hub's clock was set. */
  hurry(): void {
    if (!this.#isOpen) return;
    for (const stop of this.#stopWaiting.splice(0)) stop();
    this.#pings = 0;
    this.#ping();
  }

  /** False when there is no open line; then nothing is sent. */
  send(message: FromTablet): boolean {
    if (!this.#line || !this.#isOpen) return false;
    this.#line.send(JSON.stringify(message));
    return true;
  }

  #dial(): void {
    const mine = this.#around.dial({
      opened: () => {
        if (this.#line !== mine) return;
        this.#isOpen = true;
        this.#pings = 0;
        this.send(this.#on.hello());
        this.#ping();
        this.#listen();
      },
      said: (text) => {
        if (this.#line !== mine) return;
        this.#listen();
        const message = this.#around.read(text);
        if (message?.say === 'welcome') this.#attempt = 0;
        if (message) this.#on.said(message);
        else this.#on.unreadable?.();
      },
      closed: () => {
        if (this.#line === mine) this.#redial();
      },
    });
    this.#line = mine;
    // A dial that neither opens nor fails.
    this.#listen();
  }

  #redial(): void {
    this.#drop();
    const pause = pauseMs(this.#attempt, this.#around.random());
    this.#attempt += 1;
    this.#stopWaiting.push(this.#around.after(pause, () => this.#dial()));
  }

  #drop(): void {
    for (const stop of this.#stopWaiting.splice(0)) stop();
    this.#callOffListening();
    const line = this.#line;
    this.#line = null;
    const wasOpen = this.#isOpen;
    this.#isOpen = false;
    line?.close();
    if (wasOpen) this.#on.lost();
  }

  #ping(): void {
    this.send(this.#on.ping());
    this.#pings += 1;
    const pause = this.#pings < QUICK_PINGS ? QUICK_PING_MS : PING_MS;
    this.#stopWaiting = [this.#around.after(pause, () => this.#ping())];
  }

  #callOffListening: () => void = () => {};

  #listen(): void {
    this.#callOffListening();
    this.#callOffListening = this.#around.after(SILENCE_MS, () => this.#redial());
  }
}
