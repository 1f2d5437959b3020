/** Puts the kiosk together: link, clock, outbox and the state the screens read. One for a page. */
import { version } from '$app/env';
import { createContext } from 'svelte';
import type { OpFact, Reason } from '#core/day/ops.ts';
import type { TabletPlace } from '#core/day/places.ts';
import type { Forecast } from '#core/plan/model.ts';
import { SECOND_MS } from '#core/time/units.ts';
import { HUB_SAYS, sayReason } from '#core/words/en.ts';
import { PROTOCOL, type FromHub, type FromTablet } from '#core/wire/messages.ts';
import { canStayAwake, stayAwake } from '../link/awake.ts';
import { browserClocks, browserSurroundings } from '../link/browser.ts';
import { HubClock } from '../link/clock.ts';
import { newId } from '../link/ids.ts';
import { memoryStore, Outbox, type OutboxStore } from '../link/outbox.ts';
import { openOutboxDb } from '../link/outboxDb.ts';
import { HubSocket } from '../link/socket.ts';
import type { Remembered } from '../link/store.ts';
import { BoardState } from './board.svelte.ts';
import { Connection } from './connection.svelte.ts';
import { Notices } from './notices.svelte.ts';
import { PersonHere } from './person.svelte.ts';
import { Questions, type Considered } from './questions.ts';
import { Reloader } from './reloader.ts';
import { Setup } from './setup.svelte.ts';
import { FreshTaps } from './taps.svelte.ts';
import { Ticker } from './ticker.svelte.ts';

/** How often the last board is put by, at most. */
const KEEP_EVERY_MS = 5 * SECOND_MS;

export class Session {
  readonly clock = new HubClock(browserClocks);
  readonly ticker = new Ticker(this.clock);
  readonly board = new BoardState();
  readonly connection = new Connection();
  readonly notices = new Notices();
  readonly person = new PersonHere();
  readonly fresh = new FreshTaps();
  readonly #shelf: Remembered;
  readonly setup: Setup;
  readonly #device: string;
  readonly #socket: HubSocket;
  readonly #reloader: Reloader;
  readonly #questions = new Questions();
  #outbox: Outbox = new Outbox(memoryStore(), () => this.#outboxChanged());
  #keptAt = 0;
  #isReady = $state(false);

  constructor(shelf: Remembered) {
    this.#shelf = shelf;
    this.setup = new Setup(shelf);
    this.#device = shelf.get('device') ?? newId();
    shelf.set('device', this.#device);
    this.#reloader = new Reloader(version, () => this.#outbox.isAllStored);
    this.#socket = new HubSocket(browserSurroundings, {
      hello: () => this.#hello(),
      ping: () => ({ say: 'ping', t1: this.clock.mono() }),
      said: (message) => this.#said(message),
      lost: () => this.#lost(),
    });
    this.#bringBackLastBoard();
  }

  /** Starts once the taps of an earlier visit are back; a tablet without a place waits for one. */
  async start(): Promise<void> {
    this.ticker.start();
    let store: OutboxStore;
    try {
      store = await openOutboxDb();
    } catch {
      store = memoryStore();
      this.connection.cannotKeep();
    }
    this.#outbox = new Outbox(store, () => this.#outboxChanged());
    await this.#outbox.open();
    this.#isReady = true;
    void stayAwake();
    this.#socket.start();
  }

  /** Taps can be taken: what an earlier visit left is back. */
  get isReady(): boolean {
    return this.#isReady;
  }

  /** Whether this browser can keep the glass lit by itself. */
  get canStayAwake(): boolean {
    return canStayAwake();
  }

  stop(): void {
    this.ticker.stop();
    this.#socket.stop();
  }

  /** The page is shown again, or the network is back: time and line may both be stale. */
  wake(): void {
    this.ticker.start();
    void stayAwake();
    if (!this.connection.isLive) this.#socket.again();
  }

  touched(): void {
    this.#reloader.touched(this.clock.mono());
  }

  hang(place: TabletPlace): void {
    if (place.role !== this.setup.place?.role) this.#shelf.forget('last');
    this.board.setRole(place.role);
    this.setup.setPlace(place);
    this.#socket.again();
  }

  /** Sends one tap; it shows at once and is kept until the hub answers. Returns its id. */
  tap(fact: OpFact, by: string | null = null): string {
    const id = newId();
    const tappedAt = Math.round(this.clock.barnNow());
    void this.#outbox.add({ id, device: this.#device, by, tappedAt, fact });
    return id;
  }

  /** A tap that can be taken back on the spot for some seconds. */
  tapWithUndo(fact: OpFact, by: string | null, subject: string, says: string): void {
    const op = this.tap(fact, by);
    this.fresh.add({ op, subject, says, at: this.ticker.hub });
  }

  undo(op: string): void {
    this.fresh.drop(op);
    this.tap({ kind: 'undone', op });
  }

  /** What would come of these facts? Null when the hub does not say. */
  whatIf(facts: readonly OpFact[]): Promise<Considered | null> {
    return this.#questions.ask((ask) => this.#socket.send({ say: 'whatIf', ask, facts: [...facts] }));
  }

  startBarn(name: string, zone: string): boolean {
    return this.#socket.send({ say: 'startBarn', name, zone });
  }

  explain(why: Reason): string {
    return sayReason(why, this.board.nameOf);
  }

  get forecast(): Forecast | null {
    return this.board.forecast;
  }

  /** Puts the board by, so that a reload without the hub still shows something. */
  keepBoard(): void {
    const { place } = this.setup;
    const { confirmed, forecast } = this.board;
    const clock = this.clock.barnClock;
    const heardAt = this.connection.heardAt;
    if (!place || !confirmed || !clock || heardAt === null) return;
    this.#keptAt = this.clock.mono();
    this.#shelf.set('last', {
      role: place.role,
      ...confirmed,
      forecast,
      clock,
      demo: this.connection.isDemo,
      hubMinusWall: this.clock.hubMinusWall,
      heardAt: Math.round(heardAt),
    });
  }

  #bringBackLastBoard(): void {
    const role = this.setup.place?.role;
    if (role) this.board.setRole(role);
    const last = this.#shelf.get('last');
    if (!last || last.role !== role) return;
    this.clock.remember(last.hubMinusWall, last.clock);
    this.board.restore({ journal: last.journal, seq: last.seq, board: last.board }, last.forecast);
    this.connection.remember(last.heardAt, last.demo);
    this.ticker.read();
  }

  #hello(): FromTablet {
    const { confirmed } = this.board;
    return {
      say: 'hello',
      protocol: PROTOCOL,
      device: this.#device,
      // Before it hangs anywhere a tablet listens as an aisle tablet, which may do least.
      place: this.setup.place ?? { role: 'aisle', stalls: [] },
      since: confirmed && { journal: confirmed.journal, seq: confirmed.seq },
    };
  }

  #said(message: FromHub): void {
    this.connection.heard(this.clock.hubNow());
    switch (message.say) {
      case 'welcome':
        if (!this.board.takeWelcome(message)) return this.#askFromNothing();
        this.clock.takeBarnClock(message.clock);
        this.connection.welcomed(message.demo, message.addresses);
        this.#reloader.hubServes(message.build);
        this.#outbox.connectionLost();
        this.#pump();
        break;
      case 'entries':
        if (!this.board.takeEntries(message.entries)) return this.#askFromNothing();
        break;
      case 'answered':
        this.#answered(message.answers);
        break;
      case 'pong':
        this.clock.takePong(message);
        break;
      case 'forecast':
        this.board.takeForecast(message.forecast);
        break;
      case 'considered':
        this.#questions.answer(message);
        break;
      case 'refused':
        if (message.code === 'otherVersion') this.#reloader.otherVersion();
        else this.notices.say(`refused-${message.code}`, HUB_SAYS[message.code]);
        break;
    }
    this.#reloader.maybe(this.clock.mono());
    if (this.clock.mono() - this.#keptAt > KEEP_EVERY_MS) this.keepBoard();
  }

  #askFromNothing(): void {
    this.board.forget();
    this.#socket.again();
  }

  #answered(answers: Extract<FromHub, { say: 'answered' }>['answers']): void {
    this.board.takeAnswers(answers);
    for (const { id, why } of answers) {
      if (!why) continue;
      this.fresh.drop(id);
      this.notices.say(id, this.explain(why));
    }
    void this.#outbox.answered(answers.map((answer) => answer.id));
  }

  #lost(): void {
    this.connection.lost();
    this.#outbox.connectionLost();
    this.#questions.giveUp();
    this.keepBoard();
  }

  #outboxChanged(): void {
    this.board.setWaiting(this.#outbox.ops);
    if (!this.#outbox.isKept) this.connection.cannotKeep();
    this.#pump();
  }

  #pump(): void {
    if (!this.connection.isLive) return;
    for (let ops = this.#outbox.takeFrame(); ops.length > 0; ops = this.#outbox.takeFrame()) {
      this.#socket.send({ say: 'taps', ops });
    }
  }
}

export const [getSession, setSession] = createContext<Session>();
