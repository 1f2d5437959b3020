/**
 * A storm: a real hub process, tablets behind bad networks, and power cuts on both sides; after each round everything
 * must have come through. The seed fixes what is done in which order; how it falls in time is the machine's.
 */
import { watch } from 'node:fs';
import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { setImmediate as turn, setTimeout as sleep } from 'node:timers/promises';
import type { TabletPlace } from '#core/day/places.ts';
import { seededRandom, type Random } from '#core/plan/search/random.ts';
import { SNAPSHOT_EVERY } from '../../../hub/room.ts';
import { HubProcess, tempFolder } from '../hubProcess.ts';
import { checkBoards, checkDisk, type Wrongs } from './check.ts';
import { Proxy } from './proxy.ts';
import { Tablet, type Ledger } from './tablet.ts';
import { barnFacts, somebody, someFact } from './taps.ts';

export type StormResult = {
  readonly seed: number;
  rounds: number;
  /** Taps kept in an outbox. */
  ops: number;
  acknowledged: number;
  lost: number;
  doubled: number;
  diverged: number;
  hubKills: number;
  /** Of these, between the first and the last step of a snapshot. */
  hubKillsInSnapshot: number;
  tabletKills: number;
  cuts: number;
  halfOpens: number;
  seconds: number;
  /** The first few things that went wrong, in words. */
  wrongs: string[];
};

const PLACES: readonly TabletPlace[] = [
  { role: 'coordinator' },
  { role: 'aisle', stalls: [] },
  { role: 'aisle', stalls: ['s0', 's1'] },
  { role: 'door', arena: null, metres: 8 },
];

const STEPS_A_ROUND = 40;
const ROUNDS_A_BARN = 40;

/** A round that has not come through after this is one that never will. */
const PATIENCE_MS = 60_000;

const WRONGS_TOLD = 20;

/** Runs `rounds` rounds. `told` hears of each. */
export async function storm(
  rounds: number,
  seed: number,
  told: (result: StormResult) => void = () => {},
): Promise<StormResult> {
  const result: StormResult = {
    seed,
    rounds: 0,
    ops: 0,
    acknowledged: 0,
    lost: 0,
    doubled: 0,
    diverged: 0,
    hubKills: 0,
    hubKillsInSnapshot: 0,
    tabletKills: 0,
    cuts: 0,
    halfOpens: 0,
    seconds: 0,
    wrongs: [],
  };
  const began = performance.now();
  while (result.rounds < rounds) {
    const scene = await Scene.open(seed + result.rounds, result);
    try {
      for (let i = 0; i < ROUNDS_A_BARN && result.rounds < rounds; i += 1) {
        await scene.round();
        result.rounds += 1;
        result.seconds = Math.round((performance.now() - began) / 100) / 10;
        told(result);
      }
    } finally {
      await scene.close();
    }
  }
  return result;
}

/** One barn, its hub and its tablets. */
class Scene {
  readonly #random: Random;
  readonly #result: StormResult;
  readonly #data: string;
  readonly #remove: () => Promise<void>;
  readonly #ledger: Ledger = { kept: new Set(), answered: new Map(), wrongs: [] };
  readonly #wrongs: Wrongs = { lost: [], doubled: [], diverged: [] };
  #proxies: Proxy[] = [];
  #tablets: Tablet[] = [];
  #hub: HubProcess | null = null;
  #starting: Promise<void> = Promise.resolve();
  #counted = { kept: 0, answered: 0 };
  /** Wrongs already counted. */
  readonly #known = new Set<string>();

  private constructor(seed: number, result: StormResult, data: string, remove: () => Promise<void>) {
    this.#random = seededRandom(seed);
    this.#result = result;
    this.#data = data;
    this.#remove = remove;
  }

  static async open(seed: number, result: StormResult): Promise<Scene> {
    const { path, remove } = await tempFolder();
    const scene = new Scene(seed, result, path, remove);
    await mkdir(join(path, 'tablets'));
    await scene.#startHub();
    for (const [i, place] of PLACES.entries()) {
      const proxy = await Proxy.open(() => scene.#hub?.port ?? null);
      scene.#proxies.push(proxy);
      scene.#tablets.push(
        new Tablet({
          device: `t${i}`,
          place,
          folder: join(path, 'tablets'),
          port: proxy.port,
          random: seededRandom(scene.#random.below(1_000_000)),
          ledger: scene.#ledger,
        }),
      );
    }
    const [office] = scene.#tablets;
    for (const fact of barnFacts(Date.now())) office!.tap(fact, null);
    await scene.#drained();
    return scene;
  }

  async round(): Promise<void> {
    const random = this.#random;
    const killAt = random.below(3) === 0 ? random.below(STEPS_A_ROUND) : null;
    const inSnapshot = random.below(8) === 0;
    if (inSnapshot) await this.#killInSnapshot();
    for (let step = 0; step < STEPS_A_ROUND; step += 1) {
      if (step === killAt && !inSnapshot) void this.#killHub();
      this.#someFault();
      for (let taps = random.below(4); taps > 0; taps -= 1) this.#someTap();
      if (random.below(4) === 0) await sleep(random.below(6));
      else await turn();
    }
    for (const proxy of this.#proxies) proxy.delay(() => 0);
    if (await this.#drained()) await this.#check();
    this.#count();
  }

  async close(): Promise<void> {
    for (const tablet of this.#tablets) tablet.end();
    for (const proxy of this.#proxies) await proxy.close();
    await this.#starting;
    await this.#hub?.end('SIGKILL');
    await this.#remove();
  }

  get #folder(): string {
    return join(this.#data, 'barn');
  }

  #someTap(): void {
    const tablet = this.#tablets[this.#random.below(this.#tablets.length)]!;
    const fact = someFact(tablet.parts.place.role, this.#random, tablet.barnNow, tablet.last);
    tablet.tap(fact, somebody(this.#random));
  }

  #someFault(): void {
    const random = this.#random;
    const i = random.below(this.#tablets.length);
    const [tablet, proxy] = [this.#tablets[i]!, this.#proxies[i]!];
    switch (random.below(60)) {
      case 0:
      case 1:
        proxy.cut();
        this.#result.cuts += 1;
        break;
      case 2:
        proxy.cutNextAfter(200 + random.below(4000));
        proxy.cut();
        this.#result.cuts += 2;
        break;
      case 3:
        proxy.turn((['halfOpen', 'upOnly', 'stalled'] as const)[random.below(3)]!);
        this.#result.halfOpens += 1;
        break;
      case 4:
        tablet.restart(random.below(3) > 0);
        this.#result.tabletKills += 1;
        break;
      case 5:
      case 6: {
        const most = random.below(3) === 0 ? 0 : random.below(40);
        proxy.delay(() => random.below(most + 1));
        break;
      }
    }
  }

  async #startHub(): Promise<void> {
    this.#hub = await HubProcess.start(this.#data);
  }

  /** Kills it, looks at what it left, and starts the next one. */
  #killHub(): Promise<void> {
    const hub = this.#hub;
    if (!hub) return this.#starting;
    this.#hub = null;
    this.#result.hubKills += 1;
    this.#starting = hub.end('SIGKILL').then(async () => {
      const { isInSnapshot } = checkDisk(this.#folder, this.#ledger, this.#tablets, this.#wrongs);
      if (isInSnapshot) this.#result.hubKillsInSnapshot += 1;
      await this.#startHub();
    });
    return this.#starting;
  }

  /** Taps until the hub begins a snapshot or a new journal file, and kills it somewhere in it. */
  async #killInSnapshot(): Promise<void> {
    const [office] = this.#tablets;
    const begun = Promise.withResolvers<void>();
    const folder = watch(this.#folder, (_event, name) => {
      if (name?.endsWith('.new')) begun.resolve();
    });
    for (let n = 0; n < SNAPSHOT_EVERY; n += 1) {
      office!.tap(someFact('coordinator', this.#random, office!.barnNow, office!.last), 'ines');
    }
    await Promise.race([begun.promise, sleep(PATIENCE_MS, undefined, { ref: false })]);
    folder.close();
    for (let wait = this.#random.below(4); wait > 0; wait -= 1) await turn();
    await this.#killHub();
  }

  /** Whether every tablet is connected, has nothing left to send, and stands where the others stand. */
  async #drained(): Promise<boolean> {
    const until = performance.now() + PATIENCE_MS;
    for (;;) {
      await this.#starting;
      await sleep(2);
      const seqs = new Set(this.#tablets.map(({ known }) => known?.seq));
      const done = this.#tablets.every(({ isLive, waiting }) => isLive && waiting === 0);
      if (done && seqs.size === 1 && !seqs.has(undefined)) return true;
      if (performance.now() < until) continue;
      const stuck = this.#tablets.map(
        ({ parts, isLive, waiting, known }) =>
          `${parts.device} live ${isLive}, ${waiting} waiting, at ${known?.seq}`,
      );
      this.#wrongs.diverged.push(`did not come through: ${stuck.join('; ')}`);
      return false;
    }
  }

  async #check(): Promise<void> {
    checkDisk(this.#folder, this.#ledger, this.#tablets, this.#wrongs);
    for (const id of this.#ledger.kept) {
      if (!this.#ledger.answered.has(id)) this.#wrongs.lost.push(`${id} was never answered`);
    }
    if (this.#hub) await checkBoards(this.#hub.port, this.#tablets, this.#wrongs);
  }

  #count(): void {
    const { kept, answered, wrongs } = this.#ledger;
    const result = this.#result;
    result.ops += kept.size - this.#counted.kept;
    result.acknowledged += answered.size - this.#counted.answered;
    this.#counted = { kept: kept.size, answered: answered.size };
    result.lost += this.#fresh(this.#wrongs.lost);
    result.doubled += this.#fresh(this.#wrongs.doubled);
    result.diverged += this.#fresh(this.#wrongs.diverged) + this.#fresh(wrongs);
    result.wrongs.splice(WRONGS_TOLD);
  }

  /** How many of these wrongs are new: what is lost is missing in every later round, too. */
  #fresh(list: string[]): number {
    const fresh = list.splice(0).filter((wrong) => !this.#known.has(wrong));
    for (const wrong of fresh) this.#known.add(wrong);
    this.#result.wrongs.push(...fresh.map((wrong) => `round ${this.#result.rounds}: ${wrong}`));
    return fresh.length;
  }
}
