/** The room by itself: links and disk in the test's hand, so that every order of events can be had. */
import { beforeEach, describe, expect, test } from 'vitest';
import type { Op, OpFact } from '#core/day/ops.ts';
import type { TabletPlace } from '#core/day/places.ts';
import { redactBoard } from '#core/day/redact.ts';
import { forecast } from '#core/plan/forecast.ts';
import { planInput } from '#core/plan/input.ts';
import type { Forecast } from '#core/plan/model.ts';
import { unpacked } from '#core/wire/compact.ts';
import { FromHub, REFUSALS, WriteTrouble, type FromTablet, type Status } from '#core/wire/messages.ts';
import { PROTOCOL } from '#core/wire/protocol.ts';
import { HUB_SAYS, HUB_STATUS } from '#core/words/en/hub.ts';
import { OPEN_GATE } from '../../../hub/gate.ts';
import type { Planner } from '../../../hub/planner.ts';
import { MOST_TO_CATCH_UP } from '../../../hub/ledger.ts';
import { MOST_REFUSALS, Room, SNAPSHOT_EVERY } from '../../../hub/room.ts';
import type { Session } from '../../../hub/session.ts';
import { Memory, openMemoryStorage } from '../../../hub/storage/memory.ts';
import type { Storage } from '../../../hub/storage/storage.ts';
import { NOON, smallBoard } from '../../properties/day-arbitraries.ts';

/** Ada is here with work given to her, so the people are in it. */
const FORECAST: Forecast = forecast(planInput(smallBoard(), NOON));

/** A planner that says what it is told to. */
class StillPlanner implements Planner {
  share: (forecast: Forecast) => void = () => {};
  readonly boards: unknown[] = [];
  start(_board: unknown, onForecast: (forecast: Forecast) => void): void {
    this.share = onForecast;
  }
  changed(board: unknown): void {
    this.boards.push(board);
  }
  consider(): Promise<Forecast> {
    return Promise.resolve(FORECAST);
  }
  stop(): Promise<void> {
    return Promise.resolve();
  }
}

/** Storage whose appends wait while it is held. */
class HeldStorage {
  readonly memory = new Memory();
  readonly inner = openMemoryStorage(this.memory, { board: smallBoard(), journal: 'j1' });
  appends = 0;
  held: PromiseWithResolvers<void> | null = null;
  readonly storage: Storage = {
    ...this.inner,
    append: async (entries) => {
      this.appends += 1;
      await this.held?.promise;
      await this.inner.append(entries);
    },
    mend: async () => {
      this.mends += 1;
      if (this.isFull) throw this.full;
    },
  };
  /** How a disk says that it is full: errno of POSIX.1-2017. */
  readonly full = Object.assign(new Error('no space left on device'), { code: 'ENOSPC' });
  isFull = false;
  mends = 0;
  hold(): void {
    this.held = Promise.withResolvers<void>();
  }
  release(): void {
    this.held?.resolve();
    this.held = null;
  }
}

let disk: HeldStorage;
let planner: StillPlanner;
let room: Room;
let now: number;
let jump: Status['clockJump'];
let started: [string, string][];
let lines: string[];

function openRoom(more: { demo?: boolean; rate?: number } = {}): void {
  now = NOON + 1000;
  jump = null;
  started = [];
  lines = [];
  planner = new StillPlanner();
  room = new Room({
    storage: disk.storage,
    planner,
    standIns: { find: () => Promise.reject(new Error('not asked here')), stop: async () => {} },
    clock: () => now,
    barnClock: { hub: NOON, barn: NOON, rate: more.rate ?? 1 },
    demo: more.demo ?? false,
    build: 'b1',
    addresses: () => ['http://192.0.2.1:4610'],
    gate: OPEN_GATE,
    grant: () => Promise.reject(new Error('not asked here')),
    tablets: () => [],
    onStartBarn: (name, zone) => started.push([name, zone]),
    version: '1.2.3',
    clockJump: () => jump,
    mendEveryMs: 5,
    slowDiskAfterMs: 40,
    dayKept: () => {},
    log: (line) => lines.push(line),
    newId: () => 'own-1',
  });
  room.start();
}

beforeEach(() => {
  disk = new HeldStorage();
  openRoom();
});

type Tablet = { session: Session; heard: FromHub[]; closed: number[]; say: (message: unknown) => void };

function connect(): Tablet {
  const heard: FromHub[] = [];
  const closed: number[] = [];
  const session = room.join({
    send: (text) => heard.push(unpacked(JSON.parse(text)) as FromHub),
    close: (code) => closed.push(code),
  });
  return { session, heard, closed, say: (message) => room.hear(session, JSON.stringify(message)) };
}

function hello(place: TabletPlace, since: { journal: string; seq: number } | null = null): FromTablet {
  return { say: 'hello', protocol: PROTOCOL, device: 'd1', place, since };
}

function join(
  place: TabletPlace = { role: 'coordinator' },
  since: { journal: string; seq: number } | null = null,
): Tablet {
  const tablet = connect();
  tablet.say(hello(place, since));
  // How the hub itself is has tests of its own.
  expect(tablet.heard.splice(1, 1)).toMatchObject([{ say: 'status' }]);
  return tablet;
}

const AISLE: TabletPlace = { role: 'aisle', stalls: [] };

const finish = (id: string, device = 'd1'): Op => ({
  id,
  device,
  by: 'ada',
  tappedAt: NOON,
  fact: { kind: 'stagesFinished', prep: 'fern.1', stages: ['feet'] },
});

const taps = (...ops: Op[]): FromTablet => ({ say: 'taps', ops });

const turn = (): Promise<void> => new Promise((done) => setImmediate(done));

const said = (tablet: Tablet): string[] => tablet.heard.map((message) => message.say);

const lastSaid = (tablet: Tablet): FromHub | undefined => tablet.heard.at(-1);

describe('before it is on disk', () => {
  test('nobody hears of an op, and who joins then does not see it', async () => {
    const [one, two] = [join(), join()];
    disk.hold();
    one.say(taps(finish('a')));
    await turn();
    expect(said(one)).toEqual(['welcome']);
    expect(said(two)).toEqual(['welcome']);
    const late = join();
    expect(late.heard).toMatchObject([{ say: 'welcome', seq: 0 }]);
    disk.release();
    await turn();
    expect(said(one)).toEqual(['welcome', 'entries', 'answered']);
    expect(said(two)).toEqual(['welcome', 'entries']);
    expect(late.heard[1]).toMatchObject({ say: 'entries', entries: [{ seq: 1, id: 'a' }] });
  });

  test('a repeated op is not answered either', async () => {
    const one = join();
    disk.hold();
    one.say(taps(finish('a')));
    await turn();
    one.say(taps(finish('a')));
    await turn();
    expect(said(one)).toEqual(['welcome']);
    disk.release();
    await turn();
    expect(said(one)).toEqual(['welcome', 'entries', 'answered', 'answered']);
    expect(one.heard[2]).toEqual(one.heard[3]);
  });

  test('taps of many tablets share one wait', async () => {
    const tablets = Array.from({ length: 10 }, () => join());
    disk.hold();
    tablets[0]?.say(taps(finish('first')));
    await turn();
    tablets.forEach((tablet, i) => tablet.say(taps(finish(`op${i}`))));
    disk.release();
    await turn();
    expect(disk.appends).toBe(2);
    expect(disk.memory.entries.map((entry) => entry.seq)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11]);
  });
});

describe('when the disk fails', () => {
  const READ_ONLY = { say: 'refused', code: 'readOnly' };
  const isWritable = (): Promise<unknown> => expect.poll(() => room.status.readOnly).toBeNull();

  /** The disk is full; `before` is on it, and `op`, on its way then, is not. */
  const fill = async (tablet: Tablet, op: Op): Promise<void> => {
    disk.hold();
    tablet.say(taps(op));
    await turn();
    disk.isFull = true;
    disk.held?.reject(disk.full);
    disk.held = null;
    await turn();
  };

  test('no op is answered; each is refused, also more of them than of nonsense are suffered, and the rest goes on', async () => {
    const [one, two] = [join(), join(AISLE)];
    one.heard.length = two.heard.length = 0;
    await fill(one, finish('a'));
    const status = {
      say: 'status',
      version: '1.2.3',
      readOnly: { since: NOON + 1000, why: 'full' },
      tornTail: null,
      clockJump: null,
    };
    expect(one.heard).toEqual([READ_ONLY, status]);
    expect(two.heard).toEqual([status]);
    for (let i = 0; i < 2 * MOST_REFUSALS; i += 1) two.say(taps(finish(`b${i}`)));
    expect(two.heard.slice(1)).toEqual(Array.from({ length: 2 * MOST_REFUSALS }, () => READ_ONLY));
    expect(two.closed).toEqual([]);
    expect(disk.appends).toBe(1);
    one.say({ say: 'ping', t1: 1 });
    expect(lastSaid(one)?.say).toBe('pong');
    const late = connect();
    late.say(hello({ role: 'coordinator' }));
    expect(late.heard).toMatchObject([{ say: 'welcome', seq: 0 }, status]);
    expect(late.heard[0]).toMatchObject({ board: redactBoard(smallBoard(), 'coordinator') });
  });

  test('memory goes back to what is on disk, and a tap sent again lands as if it had never been there', async () => {
    const one = join();
    one.say(taps(finish('before')));
    await turn();
    const before = room.board;
    disk.hold();
    one.say(taps(finish('a')));
    await turn();
    // Accepted on top of the one whose write will fail.
    one.say(taps({ ...finish('b'), fact: { kind: 'undone', op: 'a' } }));
    disk.isFull = true;
    disk.held?.reject(disk.full);
    disk.held = null;
    await turn();
    expect(room.board).toBe(before);
    expect(room.seq).toBe(1);
    disk.isFull = false;
    await isWritable();
    // By itself it would have something to undo, had the first one stayed in memory.
    one.say(taps({ ...finish('b'), fact: { kind: 'undone', op: 'a' } }));
    await turn();
    expect(lastSaid(one)).toEqual({
      say: 'answered',
      answers: [{ id: 'b', seq: 2, why: { code: 'nothingToUndo' } }],
    });
    one.say(taps(finish('a')));
    await turn();
    expect(lastSaid(one)).toEqual({ say: 'answered', answers: [{ id: 'a', seq: 3, why: null }] });
    expect(disk.memory.entries.map(({ id, seq }) => [id, seq])).toEqual([
      ['before', 1],
      ['b', 2],
      ['a', 3],
    ]);
  });

  test('it is tried again until it can be written; then every board hears, and tablets are asked for what was not taken', async () => {
    const [one, two] = [join(), join(AISLE)];
    await fill(one, finish('a'));
    one.heard.length = two.heard.length = 0;
    await expect.poll(() => disk.mends).toBeGreaterThan(3);
    expect(one.heard).toEqual([]);
    disk.isFull = false;
    await isWritable();
    expect(one.heard).toMatchObject([
      { say: 'status', readOnly: null },
      { say: 'welcome', journal: 'j1', seq: 0, board: null, entries: [] },
    ]);
    expect(two.heard).toMatchObject([{ say: 'status', readOnly: null }]);
    one.say(taps(finish('a')));
    await turn();
    expect(lastSaid(one)).toEqual({ say: 'answered', answers: [{ id: 'a', seq: 1, why: null }] });
  });

  test('a disk that hangs is said on every board; no more is taken until its write ends, and then all goes on', async () => {
    const [one, two] = [join(), join(AISLE)];
    disk.hold();
    one.say(taps(finish('a')));
    await expect.poll(() => room.status.readOnly?.why).toBe('failing');
    two.say(taps(finish('b')));
    expect(lastSaid(two)).toEqual(READ_ONLY);
    expect(said(one)).not.toContain('answered');
    disk.release();
    await isWritable();
    expect(said(one)).toContain('answered');
    expect(lastSaid(two)).toMatchObject({ say: 'welcome', seq: 1 });
    two.say(taps(finish('b')));
    await turn();
    expect(lastSaid(two)).toMatchObject({ say: 'answered', answers: [{ id: 'b', seq: 2 }] });
  });

  test('a snapshot holds nothing that is not on disk', async () => {
    const one = join();
    for (let i = 0; i < SNAPSHOT_EVERY - 1; i += 1) one.say(taps(finish(`op${i}`)));
    await turn();
    disk.hold();
    one.say(taps(finish('last')));
    await turn();
    one.say(taps(finish('ahead')));
    const after = disk.held;
    disk.held = null;
    // The next append, that of `ahead`, fails.
    disk.isFull = true;
    disk.storage.append = () => Promise.reject(disk.full);
    after?.resolve();
    await turn();
    await turn();
    expect(room.status.readOnly?.why).toBe('full');
    expect(disk.memory.state?.seq).toBe(SNAPSHOT_EVERY);
    expect(disk.memory.state?.seen.map(([id]) => id)).not.toContain('ahead');
  });

  test('it closes without a snapshot, and is not tried any more', async () => {
    const one = join();
    await fill(one, finish('a'));
    await room.close();
    const mends = disk.mends;
    await new Promise((done) => setTimeout(done, 25));
    expect(disk.mends).toBe(mends);
    expect(disk.memory.state?.seq).toBe(0);
  });
});

test('every board hears after its welcome how the hub is, and again when that changes', () => {
  const one = connect();
  one.say(hello(AISLE));
  expect(one.heard[1]).toMatchObject({ say: 'status', version: '1.2.3', readOnly: null, clockJump: null });
  jump = { at: NOON, byMs: -90_000 };
  room.sayStatus();
  expect(lastSaid(one)).toMatchObject({ say: 'status', clockJump: { at: NOON, byMs: -90_000 } });
  expect(FromHub.safeParse(lastSaid(one)).success).toBe(true);
});

test('there are words for everything the hub may say of itself', () => {
  for (const code of REFUSALS) expect(HUB_SAYS[code]).toMatch(/\.$/);
  for (const why of WriteTrouble.options) expect(HUB_STATUS.readOnly[why]).toMatch(/\.$/);
  for (const say of [HUB_STATUS.clockAhead, HUB_STATUS.clockBack]) expect(say('2 h')).toContain('2 h');
  expect(HUB_STATUS.tornTail).toMatch(/\.$/);
});

test('of a frame of taps the ones that cannot be read are named, and none is taken', () => {
  const one = join(AISLE);
  const before = room.seq;
  const good = finish('good');
  const others = [
    { ...good, id: 'old1', fact: { kind: 'hoofPolished', horse: 'moss' } },
    { ...good, id: 'old2', tappedAt: 'noon' },
    { ...good, id: '../', fact: null },
    null,
  ];
  one.say({ say: 'taps', ops: [good, ...others] });
  expect(lastSaid(one)).toEqual({ say: 'refused', code: 'malformed', ops: ['old1', 'old2'] });
  expect(room.seq).toBe(before);
});

test('no tablet can speak as the hub', () => {
  const one = connect();
  one.say({ ...hello({ role: 'coordinator' }), device: 'hub' });
  expect(one.heard).toEqual([{ say: 'refused', code: 'malformed' }]);
});

describe('what a tablet is brought up with', () => {
  const tapped = async (count: number): Promise<Tablet> => {
    const one = join();
    for (let i = 0; i < count; i += 1) one.say(taps(finish(`op${i}`)));
    await turn();
    await room.bring({ kind: 'volunteerArrived', volunteer: 'cho' });
    return one;
  };

  test('entries only, when it knows this journal and all it missed is in memory', async () => {
    await tapped(5);
    const back = join(AISLE, { journal: 'j1', seq: 4 });
    expect(back.heard[0]).toMatchObject({ board: null, seq: 6, entries: [{ seq: 5 }, { seq: 6 }] });
    const current = join(AISLE, { journal: 'j1', seq: 6 });
    expect(current.heard[0]).toMatchObject({ board: null, entries: [] });
  });

  test('the board, when it knows another journal, comes from the future, or has missed more than a board weighs', async () => {
    await tapped(MOST_TO_CATCH_UP + 1);
    for (const since of [
      { journal: 'j2', seq: 4 },
      { journal: 'j1', seq: MOST_TO_CATCH_UP + 3 },
      { journal: 'j1', seq: 1 },
    ]) {
      const welcome = join(AISLE, since).heard[0];
      expect(welcome?.say === 'welcome' && welcome.board?.day.date).toBe('2026-05-11');
      expect(welcome).toMatchObject({ seq: MOST_TO_CATCH_UP + 2, entries: [] });
    }
    const kept = join(AISLE, { journal: 'j1', seq: 2 }).heard[0];
    expect(kept).toMatchObject({ board: null });
  });

  test('the last forecast comes along, without the people for aisle and door', () => {
    planner.share(FORECAST);
    expect(join(AISLE).heard[1]).toMatchObject({ say: 'forecast', forecast: { hands: {} } });
    expect(join().heard[1]).toMatchObject({ forecast: { hands: { ada: {} } } });
  });
});

describe('who may say what', () => {
  test('nothing before hello', () => {
    const one = connect();
    one.say({ say: 'ping', t1: 1 });
    one.say(taps(finish('a')));
    expect(one.heard).toEqual([
      { say: 'refused', code: 'helloFirst' },
      { say: 'refused', code: 'helloFirst' },
    ]);
  });

  test('a hello of another version is told so and shown out, whatever else it says', () => {
    const one = connect();
    one.say({ say: 'hello', protocol: PROTOCOL + 1, tablet: { named: 'otherwise' } });
    expect(one.heard).toEqual([{ say: 'refused', code: 'otherVersion' }]);
    expect(one.closed).toEqual([1008]);
  });

  test('a tablet that keeps talking nonsense is shown out', () => {
    const one = join();
    for (let i = 0; i < MOST_REFUSALS; i += 1) one.say('nonsense');
    expect(one.closed).toEqual([1008]);
    expect(lastSaid(one)).toEqual({ say: 'refused', code: 'tooMuch' });
  });

  test('the device is the one that said hello: nobody undoes in another tablet’s name', async () => {
    const one = connect();
    one.say({ ...hello(AISLE), device: 'd2' });
    one.say(taps(finish('a', 'd1')));
    await turn();
    expect(one.heard[2]).toMatchObject({ entries: [{ device: 'd2' }] });
  });

  test('what-if and starting a barn are the coordinator’s', async () => {
    const whatIf: FromTablet = {
      say: 'whatIf',
      ask: 'q1',
      facts: [{ kind: 'volunteerLeft', volunteer: 'ada' }],
    };
    const startBarn: FromTablet = { say: 'startBarn', name: 'New barn', zone: 'Europe/Berlin' };
    const aisle = join(AISLE);
    aisle.say(whatIf);
    aisle.say(startBarn);
    expect(aisle.heard.slice(1)).toEqual([
      { say: 'refused', code: 'notAllowedHere' },
      { say: 'refused', code: 'notAllowedHere' },
    ]);
    const office = join();
    office.say(startBarn);
    expect(lastSaid(office)).toEqual({ say: 'refused', code: 'notADemo' });
    openRoom({ demo: true });
    join().say(startBarn);
    expect(started).toEqual([['New barn', 'Europe/Berlin']]);
  });
});

describe('what-if', () => {
  const ask = async (facts: OpFact[]): Promise<FromHub | undefined> => {
    const office = join();
    office.say({ say: 'whatIf', ask: 'q1', facts });
    await turn();
    return lastSaid(office);
  };

  test('is answered with a forecast, and nothing is written', async () => {
    const answer = await ask([{ kind: 'horsePulled', horse: 'fern', why: 'shoe', hold: 'farrier' }]);
    expect(answer).toEqual({ say: 'considered', ask: 'q1', why: null, forecast: FORECAST });
    expect(disk.appends).toBe(0);
    expect(room.seq).toBe(0);
    expect(room.board.barn.horses['fern']?.holds).toEqual([]);
  });

  test('says why when it cannot be', async () => {
    const answer = await ask([{ kind: 'volunteerLeft', volunteer: 'nobody' }]);
    expect(answer).toMatchObject({ why: { code: 'unknownPerson' }, forecast: null });
  });
});

describe('clocks', () => {
  test('entries carry barn time, pongs hub time', async () => {
    openRoom({ rate: 20 });
    const one = join();
    one.say({ say: 'ping', t1: 7 });
    expect(lastSaid(one)).toEqual({ say: 'pong', t1: 7, t2: NOON + 1000, t3: NOON + 1000 });
    one.say(taps(finish('a')));
    await turn();
    expect(one.heard[2]).toMatchObject({ entries: [{ at: NOON + 20_000 }] });
  });
});

describe('snapshots', () => {
  test('come every so many entries and at the end, and the journal shrinks with them', async () => {
    const one = join();
    for (let i = 0; i < SNAPSHOT_EVERY; i += 1) one.say(taps(finish(`op${i}`)));
    await room.bring({ kind: 'volunteerArrived', volunteer: 'cho' });
    await turn();
    expect(disk.memory.state?.seq).toBe(SNAPSHOT_EVERY + 1);
    expect(openMemoryStorage(disk.memory, { board: smallBoard(), journal: 'j1' }).opened.entries).toEqual([]);
    one.say(taps(finish('last')));
    await room.close();
    expect(disk.memory.state?.seq).toBe(SNAPSHOT_EVERY + 2);
    expect(one.closed).toEqual([1001]);
  });
});
