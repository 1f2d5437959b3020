/** Puts the kiosk together: link, clock, outbox and the state the screens read. One for a page. */
import { version } from '$app/env';
import { createContext } from 'svelte';
import type { Board } from '#core/day/board.ts';
import type { Entry, OpFact, Reason } from '#core/day/ops.ts';
import type { TabletPlace } from '#core/day/places.ts';
import type { Forecast } from '#core/plan/model.ts';
import { SECOND_MS } from '#core/time/units.ts';
import type { Here } from '#core/wire/gate.ts';
import { restingPlace } from '#core/wire/locking.ts';
import type { FromHub, FromTablet, REFUSALS, Status } from '#core/wire/messages.ts';
import { MOST_OPEN, PROTOCOL } from '#core/wire/protocol.ts';
import type { StandInsAnswer, StandInsFor } from '#core/wire/standIns.ts';
import { KeptDrafts } from '../link/drafts.ts';
import { canStayAwake, stayAwake } from '../link/awake.ts';
import {
  beforePaint,
  browserClocks,
  browserSurroundings,
  loadAnew,
  opensWithoutHub,
} from '../link/browser.ts';
import { HubClock, type PongTimes } from '../link/clock.ts';
import { newId } from '../link/ids.ts';
import type { Answers } from '../link/neighbours.ts';
import type { PairOutcome } from '../link/pairing.ts';
import { browserPostParts, keepsTaps } from '../link/postParts.ts';
import { HubSocket } from '../link/socket.ts';
import { TapPost } from '../link/tapPost.ts';
import type { Remembered } from '../link/store.ts';
import { Alerts } from './alerts.svelte.ts';
import { BoardState, type Play } from './board.svelte.ts';
import { Connection } from './connection.svelte.ts';
import { Gate } from './gate.svelte.ts';
import { Notices } from './notices.svelte.ts';
import { PersonHere } from './person.svelte.ts';
import { Questions, type Considered } from './questions.ts';
import { Redraw } from './redraw.ts';
import { Reloader } from './reloader.ts';
import { Setup } from './setup.svelte.ts';
import { Suggestions } from './suggestions.svelte.ts';
import { FreshTaps } from './taps.svelte.ts';
import { Ticker } from './ticker.svelte.ts';
import { language, learnLater } from '../words.ts';

/** A search over a busy day takes some seconds on a small hub. */
const STAND_INS_PATIENCE_MS = 30 * SECOND_MS;

/** What the hub says of the barn all day long; all else is taken in at once, and after what was said before it. */
const CAN_WAIT: ReadonlySet<FromHub['say']> = new Set(['entries', 'forecast', 'pong']);

/** How often the last board is put by, at most. */
const KEEP_EVERY_MS = 5 * SECOND_MS;

export class Session {
  readonly clock = new HubClock(browserClocks);
  readonly ticker = new Ticker(this.clock, (hasSlept) => this.#ticked(hasSlept));
  readonly board = new BoardState();
  readonly connection = new Connection();
  readonly gate = new Gate(
    (message) => this.#socket.send(message),
    () => new KeptDrafts(sessionStorage).clear(),
  );
  readonly notices: Notices;
  readonly alerts: Alerts;
  readonly person = new PersonHere();
  readonly fresh = new FreshTaps();
  readonly suggestions = new Suggestions();
  readonly #shelf: Remembered;
  readonly setup: Setup;
  readonly #device: string;
  readonly #socket: HubSocket;
  readonly #reloader: Reloader;
  readonly #questions = new Questions<Considered>();
  readonly #standInQuestions = new Questions<StandInsAnswer>(STAND_INS_PATIENCE_MS);
  readonly #post: TapPost;
  #keptAt = 0;
  /** Heard, and put on the board at the next redraw. */
  readonly #gathered: Entry[] = [];
  #newForecast: Forecast | null = null;
  readonly #redraw = new Redraw(() => this.#takeGathered(), {
    mono: () => this.clock.mono(),
    after: browserSurroundings.after,
    beforePaint,
    isHidden: () => document.visibilityState === 'hidden',
  });
  /** Said before it was known how boards change: entries and answers, and what came after them. */
  readonly #held: FromHub[] = [];

  constructor(shelf: Remembered) {
    this.#shelf = shelf;
    this.setup = new Setup(shelf);
    this.notices = new Notices(shelf);
    this.notices.bringBack(this.clock.wall());
    const { connection, notices, ticker } = this;
    const board = (): Board | null => this.board.shown;
    this.alerts = new Alerts({ board, connection, notices, ticker, wall: () => this.clock.wall() });
    this.#device = shelf.get('device') ?? newId();
    shelf.set('device', this.#device);
    this.#reloader = new Reloader({
      own: version,
      isSafe: () => this.#post.isSafe,
      reload: () => loadAnew(null),
      shelf: sessionStorage,
      wall: browserClocks.wall,
    });
    this.#socket = new HubSocket(browserSurroundings, {
      hello: () => this.#hello(),
      ping: () => ({ say: 'ping', t1: this.clock.mono() }),
      said: (message) => this.#said(message),
      unreadable: () => this.#unreadable(),
      lost: () => this.#lost(),
    });
    this.#post = new TapPost(browserPostParts(), {
      send: (message) => this.#socket.send(message),
      changed: () => this.#postChanged(),
      answeredElsewhere: (answers) => this.#takeAnswers(answers),
    });
    this.#bringBackLastBoard();
  }

  /** Taps of an earlier visit are back before the hub is asked: it says which of them its board has. With none it is asked at once. */
  async start(): Promise<void> {
    this.ticker.start();
    void stayAwake();
    if (await keepsTaps()) await this.openPost().catch(() => {});
    this.#socket.start();
  }

  /** Opens where taps are kept, after the first picture. Rejects when it cannot be fetched now; taps are taken before it, too. */
  openPost(): Promise<void> {
    return this.#post.open();
  }

  /** Whether the board would open here while the hub is away. */
  get opensWithoutHub(): boolean {
    return opensWithoutHub();
  }

  /** Whether this browser can keep the glass lit by itself. */
  get canStayAwake(): boolean {
    return canStayAwake();
  }

  /** As long as nobody touches it, this page is about to be loaded anew anyway. */
  get waitsForNewerBuild(): boolean {
    return this.#reloader.isWaiting(this.clock.mono());
  }

  /** Whether the page may be loaded anew without losing a tap. */
  get isSafeToReload(): boolean {
    return this.#post.isSafe;
  }

  stop(): void {
    this.ticker.stop();
    this.#socket.stop();
  }

  /** The page is shown again, or the network is back: time and line may both be stale. */
  wake(): void {
    this.ticker.start();
    void stayAwake();
    if (this.connection.isLive) this.#socket.hurry();
    else this.#socket.again();
  }

  /** The page is hidden: another of this tablet's tabs may send from now on. */
  hidden(): void {
    this.#redraw.now();
    this.keepBoard();
    this.#post.stepBack();
  }

  /** The page would be gone if it were closed now: the hub is away and nothing here could open it again. */
  get mustStayOpen(): boolean {
    return !this.connection.isLive && this.board.shown !== null && !opensWithoutHub();
  }

  touched(): void {
    this.#reloader.touched(this.clock.mono());
    this.gate.touched(this.clock.mono());
  }

  /** Asks the hub to let this tablet in. */
  async pair(code: string | null): Promise<PairOutcome> {
    const outcome = await import('../link/pairing.ts').then(
      ({ pairWith }) => pairWith(code),
      () => ({ is: 'noHub' }) as const,
    );
    if (outcome.is === 'paired') this.#socket.again();
    return outcome;
  }

  /** Nobody here is the coordinator any more. What is shown from now on is what an aisle tablet may know. */
  lock(): void {
    const { here } = this.gate;
    // What was said to a coordinator goes onto a coordinator's board, before less of it is shown.
    this.#redraw.now();
    if (here?.by) this.#standAs(here.home, restingPlace(here.home));
    this.gate.lock();
  }

  /** Where this tablet hangs from now on, and what it is called. False: the hub does not let it. */
  async hang(place: TabletPlace, name = ''): Promise<boolean> {
    const { here } = this.gate;
    if (here) {
      const outcome = await this.gate.ask({
        to: 'hang',
        tablet: here.device,
        name: name || here.name,
        place,
      });
      return outcome?.is === 'done';
    }
    if (place.role !== this.setup.place?.role) this.#shelf.forget('last');
    this.#redraw.now();
    this.board.setRole(place.role);
    this.suggestions.forget();
    this.setup.setPlace(place);
    this.#socket.again();
    return true;
  }

  /** Another language, for which the page is loaded anew: at once where no tap is lost by it, else when somebody does, as `later` says. */
  async speak(code: string, later: string): Promise<void> {
    this.setup.setLanguage(code);
    if (!this.#post.isSafe || !(await loadAnew(null))) this.notices.say('language', later);
  }

  /** Sends one tap; it shows at once and is kept until the hub answers. Returns its id. */
  tap(fact: OpFact, by: string | null = null): string {
    const id = newId();
    const tappedAt = Math.round(this.clock.barnNow());
    this.#post.add({ id, device: this.#device, by, tappedAt, fact });
    return id;
  }

  /** Somebody wants to read why a tap of theirs was declined. */
  readNotice(id: string): void {
    this.notices.raise(id, this.clock.wall());
  }

  /** A tap that can be taken back on the spot for some seconds. */
  tapWithUndo(
    fact: OpFact,
    by: string | null,
    subject: string,
    says: string,
    also: readonly string[] = [],
  ): void {
    const op = this.tap(fact, by);
    this.fresh.add({ op, also, subject, says, at: this.ticker.hub });
  }

  undo(op: string): void {
    const ops = this.fresh.withAlso(op);
    this.fresh.drop(op);
    for (const one of ops) this.tap({ kind: 'undone', op: one });
  }

  /** What would come of these facts? Null when the hub does not say. */
  whatIf(facts: readonly OpFact[]): Promise<Considered | null> {
    return this.#questions.ask((ask) => this.#socket.send({ say: 'whatIf', ask, facts: [...facts] }));
  }

  /** Which horses could stand in? Null when the hub does not say. */
  standIns(about: StandInsFor): Promise<StandInsAnswer | null> {
    return this.#standInQuestions.ask((ask) =>
      this.#socket.send({ say: 'askStandIns', ask, about, language: language().code }),
    );
  }

  startBarn(name: string, zone: string): boolean {
    return this.#socket.send({ say: 'startBarn', name, zone, code: this.gate.makeOwnCode() });
  }

  explain(why: Reason): string {
    return this.board.explain(why);
  }

  get forecast(): Forecast | null {
    return this.board.forecast;
  }

  /** Puts the board by, so that a reload without the hub still shows something. */
  keepBoard(): void {
    const { place } = this.setup;
    // What a coordinator has unlocked is not left behind on the glass.
    const { here } = this.gate;
    const role = here ? restingPlace(here.home).role : (place?.role ?? 'aisle');
    const { confirmed, forecast } = this.board.asSeenBy(role);
    const { landed } = this.board;
    const clock = this.clock.barnClock;
    const heardAt = this.connection.heardAt;
    if (!place || !confirmed || !clock || heardAt === null) return;
    this.#keptAt = this.clock.mono();
    this.#shelf.set('last', {
      build: version,
      role,
      ...confirmed,
      landed: [...landed],
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
    if (!last || last.role !== role || last.build !== version) return;
    this.clock.remember(last.hubMinusWall, last.clock);
    const { journal, seq, board, landed, forecast } = last;
    this.board.restore({ journal, seq, board }, landed, forecast);
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
      open: this.#post.ops.slice(0, MOST_OPEN).map(({ id }) => id),
    };
  }

  /** How boards change, fetched after the first picture. */
  learn(play: Play): void {
    this.board.learn(play);
    for (let message = this.#held.shift(); message; message = this.#held.shift()) this.#said(message);
  }

  #mustWait(message: FromHub): boolean {
    if (this.board.play || message.say === 'pong') return false;
    const hasEntries = 'entries' in message && message.entries.length > 0;
    const isAnswer = message.say === 'answered' || (message.say === 'refused' && message.ops !== undefined);
    return hasEntries || isAnswer || this.#held.length > 0;
  }

  #said(message: FromHub): void {
    if (this.clock.isKnown) this.connection.heard(this.clock.hubNow());
    if (this.#mustWait(message)) {
      this.#held.push(message);
      return;
    }
    // In the order in which the hub said it; only the time does not wait for the board.
    if (!CAN_WAIT.has(message.say)) this.#redraw.now();
    switch (message.say) {
      case 'welcome':
        if (!this.gate.welcomed(message.here ?? null)) return;
        if (message.here) this.#standAs(message.here.home, message.here.place);
        if (!this.board.takeWelcome(message)) return this.#askFromNothing();
        this.clock.takeBarnClock(message.clock);
        this.connection.welcomed(message.demo, message.addresses);
        this.#reloader.hubServes(message.build);
        this.#post.welcomed();
        break;
      case 'entries':
        this.#gathered.push(...message.entries);
        this.#redraw.soon();
        break;
      case 'answered':
        this.#takeAnswers(message.answers);
        this.#post.answered(message.answers);
        break;
      case 'pong':
        this.#takePong(message);
        break;
      case 'forecast':
        this.#newForecast = message.forecast;
        this.#redraw.soon();
        break;
      case 'standIns':
        this.#standInQuestions.answer(message);
        break;
      case 'gateAnswer':
        this.gate.answered(message);
        break;
      case 'tabletsKnown':
        this.gate.takeTablets(message.tablets);
        break;
      case 'considered':
        this.#questions.answer(message);
        break;
      case 'suggested':
        this.suggestions.take(message.suggestion);
        break;
      case 'refused':
        this.#refused(message);
        break;
      case 'status':
        this.#takeStatus(message);
        break;
    }
    if (this.clock.mono() - this.#keptAt > KEEP_EVERY_MS) this.keepBoard();
  }

  #takePong(pong: PongTimes): void {
    this.ticker.noticeSleep();
    const wasSynced = this.clock.isSynced;
    this.clock.takePong(pong);
    // By the first one it is known when the hub was heard.
    this.connection.heard(this.clock.hubNow());
    // What waits for the time need not wait for the next second.
    if (!wasSynced) this.ticker.start();
  }

  #takeGathered(): void {
    const entries = this.#gathered.splice(0);
    const forecast = this.#newForecast;
    this.#newForecast = null;
    if (entries.length > 0 && !this.board.takeEntries(entries)) return this.#askFromNothing();
    if (forecast) this.board.takeForecast(forecast);
  }

  #refused({ code, ops }: Extract<FromHub, { say: 'refused' }>): void {
    if (ops) this.#unreadableTaps(ops);
    else if (code === 'readOnly') this.#post.hold();
    else if (code === 'otherVersion') this.#unreadable();
    else if (code === 'notPaired') this.#notPaired();
    else void this.#sayRefused(code);
  }

  async #sayRefused(code: (typeof REFUSALS)[number]): Promise<void> {
    const [{ explainRefused }] = await Promise.all([import('./play.ts'), learnLater('hub')]);
    this.notices.say(`refused-${code}`, explainRefused(code));
  }

  /** New here, or struck off: what it knew of the barn is gone. Its taps stay, should it be paired again. */
  #notPaired(): void {
    this.gate.refused();
    this.connection.forget();
    this.alerts.forget();
    this.board.forget();
    this.suggestions.forget();
    this.#shelf.forget('last');
    this.setup.stand(null, null);
    const own = this.gate.takeOwnCode();
    if (own !== null) void this.pair(own);
  }

  /** As what the hub hears this tablet. Where it hangs nowhere yet, it shows nothing. */
  #standAs(home: Here['home'], place: TabletPlace): void {
    const seen = this.board.asSeenBy(place.role);
    if (place.role !== this.setup.place?.role) this.suggestions.forget();
    const isMore = place.role === 'coordinator';
    const isOther = this.board.setRole(place.role);
    // Less is shown at once; for more the hub has to say it.
    if (isOther && !isMore && seen.confirmed)
      this.board.restore(seen.confirmed, this.board.landed, seen.forecast);
    this.setup.stand(home && place, home && restingPlace(home));
  }

  #takeStatus(status: Status): void {
    const jump = status.clockJump;
    if (jump && jump.at !== this.connection.status?.clockJump?.at) {
      this.clock.doubt('hubSet');
      this.#socket.hurry();
    }
    this.connection.takeStatus(status);
    if (status.readOnly) this.#post.hold();
    else this.#post.release();
  }

  /** Kept here since another version of the board. They are said and let go of; the rest of their frame goes again. */
  #unreadableTaps(ops: readonly string[]): void {
    const seq = this.board.confirmed?.seq ?? 0;
    const answers = ops.map((id) => ({ id, seq, why: { code: 'unreadable' as const } }));
    this.#takeAnswers(answers);
    this.#post.answered(answers);
    this.#post.sendAgain();
  }

  /** A newer hub: this page says so, and loads anew when it may. */
  #unreadable(): void {
    this.connection.cannotRead();
    this.#reloader.cannotRead();
  }

  #ticked(hasSlept: boolean): void {
    if (hasSlept) {
      this.clock.doubt('slept');
      this.#socket.hurry();
    }
    if (this.gate.isLeft(this.clock.mono())) this.lock();
    void this.#reloader.maybe(this.clock.mono());
  }

  #askFromNothing(): void {
    this.#gathered.length = 0;
    this.#newForecast = null;
    this.board.forget();
    this.#socket.again();
  }

  #takeAnswers(answers: Answers): void {
    this.board.takeAnswers(answers);
    for (const { id, why } of answers) {
      if (!why) continue;
      this.fresh.drop(id);
      // Tapped by a coordinator while the hub was away, and locked before it was back.
      const isLate = why.code === 'notAllowedHere' && this.gate.here !== null;
      this.notices.keep(
        id,
        (isLate && this.board.play?.explainLocked()) || this.explain(why),
        this.clock.wall(),
      );
    }
  }

  #lost(): void {
    this.#held.length = 0;
    this.#redraw.now();
    this.connection.lost();
    this.gate.lost();
    this.#post.lost();
    this.#questions.giveUp();
    this.#standInQuestions.giveUp();
    this.keepBoard();
  }

  #postChanged(): void {
    const post = this.#post;
    this.board.setWaiting(post.ops, post.isOpen);
    if (!post.isKeeping) this.connection.cannotKeep();
  }
}

export const [getSession, setSession] = createContext<Session>();
