/** How much anybody may take of the hub before it knows who they are, and after. */
// oxlint-disable-next-line typescript/triple-slash-reference -- so that whoever imports this file finds the types
/// <reference path="./rate-limiter-flexible.d.ts" />
import type { Socket } from 'node:net';
// The package's index loads a client of every database it knows.
import RateLimiterMemory from 'rate-limiter-flexible/lib/RateLimiterMemory.js';
import { MINUTE_MS, SECOND_MS } from '#core/time/units.ts';
import { Pool } from './pool.ts';

export type Limits = {
  /** Connections held at once. */
  readonly total: number;
  /** Of them, those of nobody the hub knows. Behind one access point many tablets may share an address. */
  readonly strangers: number;
  readonly strangersPerAddress: number;
  /** WebSockets that have not said hello. */
  readonly waiting: number;
  readonly waitingPerAddress: number;
  /** A tablet says hello at once; what has not by then is nobody's. */
  readonly helloMs: number;
  /** New WebSockets from one address in a minute. Tablets that lost the hub try again some ten times a minute each. */
  readonly connectsAMinute: number;
  /** Frames of one connection in `framesMs`. A tablet sends some five a second at its busiest. */
  readonly frames: number;
  readonly framesMs: number;
};

export const LIMITS: Limits = {
  total: 1024,
  strangers: 512,
  strangersPerAddress: 128,
  waiting: 128,
  waitingPerAddress: 32,
  helloMs: 10 * SECOND_MS,
  connectsAMinute: 600,
  frames: 1000,
  framesMs: 5 * SECOND_MS,
};

/** For a hub that is open to all: what keeps it standing, not who may come. */
export const OPEN_LIMITS: Limits = {
  ...LIMITS,
  strangers: LIMITS.total,
  strangersPerAddress: LIMITS.total,
  waitingPerAddress: LIMITS.waiting,
  connectsAMinute: Infinity,
};

/** Wrong codes that were typed: six digits, so that 20 in five minutes against four codes at most are 8 in 100,000. */
const CODES_S = (5 * MINUTE_MS) / SECOND_MS;
export const CODES_AN_ADDRESS = 5;
export const CODES_IN_ALL = 20;

/** Counts what comes from each address; over the limit it says no until time has passed. */
export class Rate {
  readonly #limiter: RateLimiterMemory | null;

  constructor(most: number, seconds: number) {
    this.#limiter = most === Infinity ? null : new RateLimiterMemory({ points: most, duration: seconds });
  }

  /** How long to wait, in ms; 0: go on. */
  async take(key: string): Promise<number> {
    try {
      await this.#limiter?.consume(key);
      return 0;
    } catch (over) {
      return typeof over === 'object' && over && 'msBeforeNext' in over
        ? Number(over.msBeforeNext)
        : MINUTE_MS;
    }
  }

  async give(key: string): Promise<void> {
    await this.#limiter?.reward(key);
  }
}

export type CodeRates = { readonly address: Rate; readonly all: Rate };

export function codeRates(): CodeRates {
  return { address: new Rate(CODES_AN_ADDRESS, CODES_S), all: new Rate(CODES_IN_ALL, CODES_S) };
}

/** An IPv6 network gives each device a prefix of 64 bits to choose from (RFC 4291 §2.5.1). */
export function addressKey(address: string | undefined): string {
  const plain = (address ?? 'unknown').replace(/^::ffff:/, '');
  return plain.includes(':') ? plain.split(':').slice(0, 4).join(':') : plain;
}

export function isLoopback(address: string | undefined): boolean {
  const plain = (address ?? '').replace(/^::ffff:/, '');
  return plain === '::1' || /^127\.\d+\.\d+\.\d+$/.test(plain);
}

/**
 * Connections as they come, before a byte of them is read. Until a request on it has shown that its tablet is on the list, a
 * connection is a stranger's and has a place in a pool that strangers share; so strangers cannot keep tablets out.
 */
export class Crowd {
  readonly #limits: Limits;
  readonly #strangers: Pool<Socket>;
  /** By both ends' address and port: what is encrypted comes back as another socket. */
  readonly #unknown = new Map<string, Socket>();
  #total = 0;

  constructor(limits: Limits) {
    this.#limits = limits;
    this.#strangers = new Pool(limits.strangers, limits.strangersPerAddress, (socket) => socket.destroy());
  }

  let(socket: Socket): void {
    if (this.#total >= this.#limits.total) return void socket.destroy();
    const [address, end] = [addressKey(socket.remoteAddress), endOf(socket)];
    this.#total += 1;
    this.#strangers.add(socket, address);
    this.#unknown.set(end, socket);
    socket.once('close', () => {
      this.#total -= 1;
      this.#strangers.remove(socket, address);
      if (this.#unknown.get(end) === socket) this.#unknown.delete(end);
    });
  }

  /** A request that came over this connection is one of the hub's own tablets'. */
  known(socket: Pick<Socket, 'remoteAddress' | 'remotePort'>): void {
    const own = this.#unknown.get(endOf(socket));
    if (!own) return;
    this.#strangers.remove(own, addressKey(socket.remoteAddress));
    this.#unknown.delete(endOf(socket));
  }
}

function endOf({ remoteAddress, remotePort }: Pick<Socket, 'remoteAddress' | 'remotePort'>): string {
  return `${remoteAddress} ${remotePort}`;
}
