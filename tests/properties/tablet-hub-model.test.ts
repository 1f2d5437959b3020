/**
 * Tablets and hub against a small model of what must come of it: any order of tapping, sending, losing the line, losing
 * answers, sending twice, starting the hub anew from what is on disk, and reloading a tablet from what it keeps. The
 * tablets are the kiosk's own outbox and board state, the hub is its own sequence. The model knows taps by id only.
 */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Board } from '#core/day/board.ts';
import type { Entry, Op } from '#core/day/ops.ts';
import { Sequence, type SequenceState } from '#core/day/sequence.ts';
import type { FromHub } from '#core/wire/messages.ts';
import { memoryStore, Outbox } from '../../kiosk/src/lib/link/outbox.ts';
import type { BoardState } from '../../kiosk/src/lib/state/board.svelte.ts';
import { NOON, smallBoard } from './day-arbitraries.ts';
import * as play from '../../kiosk/src/lib/state/play.ts';
import { loadBoardState } from './kioskBoard.ts';

const KioskBoard = await loadBoardState();
const TABLETS = 2;
const HORSE = 'moss';

/* The model: taps land once each, in the order the hub takes them; a tablet shows what it has heard of, then its own. */

type Message = { readonly upTo: number; readonly answers: readonly string[] };
type Side = {
  mine: string[];
  sent: string[];
  heard: number;
  on: boolean;
  up: string[][];
  down: Message[];
};
type Model = { landed: string[]; sides: Side[]; taps: number };

const takes = (model: Model, frame: readonly string[]): void =>
  frame.forEach((id) => model.landed.includes(id) || model.landed.push(id));
const hears = (side: Side, { upTo, answers }: Message): void => {
  side.heard = Math.max(side.heard, upTo);
  side.mine = side.mine.filter((id) => !answers.includes(id));
};
const loses = (side: Side): void => void Object.assign(side, { on: false, sent: [], up: [], down: [] });
const shows = ({ landed }: Model, { heard, mine }: Side): string[] => [
  ...landed.slice(0, heard),
  ...mine.filter((id) => !landed.slice(0, heard).includes(id)),
];

/* The real ones. */

class Hub {
  #first: SequenceState = { board: smallBoard(), seq: 0, at: 0, seen: [] };
  #disk: Entry[] = [];
  #sequence = new Sequence(this.#first);

  get board(): Board {
    return this.#sequence.board;
  }

  get seq(): number {
    return this.#sequence.seq;
  }

  take(ops: readonly Op[]): { entries: Entry[]; answered: FromHub } {
    const taken = ops.map((op) => ({ id: op.id, ...this.#sequence.accept(op, 'coordinator', NOON) }));
    const entries = taken.flatMap(({ entry }) => entry ?? []);
    this.#disk.push(...entries);
    return {
      entries,
      answered: { say: 'answered', answers: taken.map(({ id, outcome }) => ({ id, ...outcome })) },
    };
  }

  landed(ops: readonly Op[]): string[] {
    return ops.flatMap(({ id }) => (this.#sequence.seqOf(id) === null ? [] : id));
  }

  after(seq: number): Entry[] {
    return this.#disk.filter((entry) => entry.seq > seq);
  }

  /** As from a journal, or from a snapshot and the journal after it. */
  restart(withSnapshot: boolean): void {
    if (withSnapshot) this.#first = JSON.parse(JSON.stringify(this.#sequence.state)) as SequenceState;
    const disk = JSON.parse(JSON.stringify(this.#disk)) as Entry[];
    this.#sequence = new Sequence(this.#first);
    for (const entry of disk) if (entry.seq > this.#first.seq) this.#sequence.replay(entry);
  }
}

class Tablet {
  readonly name: string;
  readonly #store = memoryStore();
  outbox: Outbox;
  state: BoardState;
  up: Op[][] = [];
  down: FromHub[] = [];
  lastFrame: Op[] = [];

  constructor(name: string, board: Board) {
    this.name = name;
    this.state = this.#fresh({ seq: 0, board }, []);
    this.outbox = new Outbox(this.#store, () => this.state.setWaiting(this.outbox.ops));
  }

  async tap(id: string): Promise<void> {
    const fact = { kind: 'horsePulled', horse: HORSE, why: id, hold: 'today' } as const;
    await this.outbox.add({ id, device: this.name, by: 'ines', tappedAt: NOON, fact });
  }

  send(): void {
    const ops = this.outbox.takeFrame();
    if (ops.length === 0) return;
    this.lastFrame = ops;
    this.up.push(ops);
  }

  async hear(): Promise<void> {
    const message = this.down.shift();
    if (message?.say === 'entries') expect(this.state.takeEntries(message.entries)).toBe(true);
    if (message?.say === 'answered') {
      this.state.takeAnswers(message.answers);
      await this.outbox.answered(message.answers.map(({ id }) => id));
    }
  }

  welcome(message: Extract<FromHub, { say: 'welcome' }>): void {
    expect(this.state.takeWelcome(message)).toBe(true);
    this.outbox.connectionLost();
  }

  lose(): void {
    this.up = [];
    this.down = [];
    this.outbox.connectionLost();
  }

  async reload(): Promise<void> {
    this.lose();
    const { confirmed, landed } = this.state;
    this.state = this.#fresh(JSON.parse(JSON.stringify(confirmed)) as { seq: number; board: Board }, landed);
    this.outbox = new Outbox(this.#store, () => this.state.setWaiting(this.outbox.ops));
    await this.outbox.open();
  }

  /** What it shows, as the ids of the taps behind it. */
  get shown(): string[] {
    return (this.state.shown?.barn.horses[HORSE]?.holds ?? []).map((hold) => hold.why);
  }

  #fresh(confirmed: { seq: number; board: Board }, landed: readonly string[]): BoardState {
    const state = new KioskBoard();
    state.learn(play);
    state.setRole('coordinator');
    state.restore({ journal: 'j', ...confirmed }, landed, null);
    return state;
  }
}

type Real = { readonly hub: Hub; readonly tablets: readonly Tablet[] };

function connect(m: Model, { hub, tablets }: Real, t: number, whole: boolean): void {
  const [side, tablet] = [m.sides[t]!, tablets[t]!];
  const entries = hub.after(tablet.state.confirmed?.seq ?? 0);
  tablet.welcome({
    say: 'welcome',
    journal: 'j',
    seq: hub.seq,
    board: whole ? hub.board : null,
    landed: hub.landed(tablet.outbox.ops),
    entries: whole ? [] : entries,
    clock: { hub: NOON, barn: NOON, rate: 1 },
    demo: false,
    build: '',
    addresses: [],
  });
  side.on = true;
  side.heard = m.landed.length;
}

function deliver(m: Model, { hub, tablets }: Real, t: number): void {
  const ops = tablets[t]!.up.shift()!;
  const { entries, answered } = hub.take(ops);
  takes(m, m.sides[t]!.up.shift()!);
  for (const [i, tablet] of tablets.entries()) {
    if (!m.sides[i]!.on) continue;
    if (entries.length > 0) {
      tablet.down.push({ say: 'entries', entries });
      m.sides[i]!.down.push({ upTo: m.landed.length, answers: [] });
    }
  }
  tablets[t]!.down.push(answered);
  m.sides[t]!.down.push({ upTo: 0, answers: ops.map(({ id }) => id) });
}

async function hear(m: Model, { tablets }: Real, t: number): Promise<void> {
  await tablets[t]!.hear();
  const side = m.sides[t]!;
  hears(side, side.down.shift()!);
}

function send(m: Model, { tablets }: Real, t: number): void {
  const side = m.sides[t]!;
  const fresh = side.mine.filter((id) => !side.sent.includes(id));
  tablets[t]!.send();
  if (fresh.length > 0) side.up.push(fresh);
  side.sent.push(...fresh);
}

function compare(m: Model, { hub, tablets }: Real): void {
  expect(hub.board.barn.horses[HORSE]?.holds.map((hold) => hold.why)).toEqual(m.landed);
  for (const [t, tablet] of tablets.entries()) {
    const side = m.sides[t]!;
    expect(tablet.shown).toEqual(shows(m, side));
    expect(tablet.outbox.ops.map(({ id }) => id)).toEqual(side.mine);
  }
}

/** One command, drawn `often` times as often as the rarest: when it makes sense, and what it does to both. */
const command = (
  often: number,
  name: string,
  makesSense: (side: Side) => boolean,
  does: (m: Model, r: Real, t: number) => void | Promise<void>,
) =>
  Array.from({ length: often }, () =>
    fc.nat({ max: TABLETS - 1 }).map((t): fc.AsyncCommand<Model, Real> => ({
      check: (m) => makesSense(m.sides[t]!),
      run: async (m, r) => {
        await does(m, r, t);
        compare(m, r);
      },
      toString: () => `${name}(${t})`,
    })),
  );

const commands = [
  command(
    3,
    'tap',
    () => true,
    async (m, r, t) => {
      const id = `tap${(m.taps += 1)}`;
      m.sides[t]!.mine.push(id);
      await r.tablets[t]!.tap(id);
    },
  ),
  command(4, 'send', (side) => side.on, send),
  command(
    2,
    'sendTwice',
    (side) => side.on && side.sent.length > 0,
    (_m, r, t) => {
      const { lastFrame, up } = r.tablets[t]!;
      up.push(lastFrame);
      _m.sides[t]!.up.push(lastFrame.map(({ id }) => id));
    },
  ),
  command(6, 'deliver', (side) => side.up.length > 0, deliver),
  command(6, 'hear', (side) => side.down.length > 0, hear),
  command(
    1,
    'loseLine',
    (side) => side.on,
    (m, r, t) => {
      r.tablets[t]!.lose();
      loses(m.sides[t]!);
    },
  ),
  command(
    1,
    'loseAnswers',
    (side) => side.up.length > 0,
    (m, r, t) => {
      deliver(m, r, t);
      r.tablets[t]!.lose();
      loses(m.sides[t]!);
    },
  ),
  command(
    4,
    'comeBack',
    (side) => !side.on,
    (m, r, t) => connect(m, r, t, false),
  ),
  command(
    1,
    'comeBackToAWholeBoard',
    (side) => !side.on,
    (m, r, t) => connect(m, r, t, true),
  ),
  command(
    1,
    'reload',
    () => true,
    async (m, r, t) => {
      const side = m.sides[t]!;
      await r.tablets[t]!.reload();
      loses(side);
    },
  ),
  ...[true, false].flatMap((withSnapshot) =>
    command(
      1,
      withSnapshot ? 'hubRestartsFromSnapshot' : 'hubRestarts',
      () => true,
      (m, r) => {
        r.hub.restart(withSnapshot);
        for (const [i, tablet] of r.tablets.entries()) {
          tablet.lose();
          loses(m.sides[i]!);
        }
      },
    ),
  ),
].flat();

/** Everybody comes back, and everything gets through. */
async function drain(m: Model, r: Real): Promise<void> {
  for (const [t, side] of m.sides.entries()) {
    if (!side.on) connect(m, r, t, false);
    send(m, r, t);
    while (side.up.length > 0) deliver(m, r, t);
  }
  for (const [t, side] of m.sides.entries()) while (side.down.length > 0) await hear(m, r, t);
}

test('tablets show what the model shows, and in the end each tap has landed once', async () => {
  await fc.assert(
    fc.asyncProperty(fc.commands(commands, { maxCommands: 80, size: 'max' }), async (list) => {
      const side = (): Side => ({ mine: [], sent: [], heard: 0, on: false, up: [], down: [] });
      const model: Model = { landed: [], sides: Array.from({ length: TABLETS }, side), taps: 0 };
      const hub = new Hub();
      const real: Real = {
        hub,
        tablets: Array.from({ length: TABLETS }, (_, i) => new Tablet(`t${i}`, smallBoard())),
      };
      await fc.asyncModelRun(() => ({ model, real }), list);
      await drain(model, real);
      compare(model, real);
      expect(new Set(model.landed).size).toBe(model.taps);
      for (const tablet of real.tablets) {
        expect(tablet.outbox.ops).toEqual([]);
        expect(tablet.state.shown).toEqual(hub.board);
      }
    }),
    { numRuns: 150 },
  );
});
