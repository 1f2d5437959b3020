/** Accounts over days put by, read from their files in a real thread; figures by hand from `handDay.ts`. */
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { AccountAnswer, type Account } from '#core/ledger/account.ts';
import { weekOf } from '#core/ledger/range.ts';
import type { Board } from '#core/day/board.ts';
import { emptyDay } from '#core/day/emptyDay.ts';
import type { Entry, Op } from '#core/day/ops.ts';
import { MINUTE_MS } from '#core/time/units.ts';
import { Accounts } from '../../../hub/accounts.ts';
import { keptDay, writeDay, type KeptDay } from '../../../hub/storage/keptDay.ts';
import { entry } from '../../properties/day-arbitraries.ts';
import { HAND_CORRECTIONS, HAND_OPS, handBoard, played } from '../ledger/handDay.ts';

let folder = '';
let accounts: Accounts;
const min = (minutes: number): number => minutes * MINUTE_MS;
const barn = handBoard().barn;

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'aisle-board-accounts-'));
});
afterEach(async () => {
  await accounts.stop();
  await rm(folder, { recursive: true, force: true });
});

/** The day played by hand, put by as that of another date: only its name counts for its week. */
function handKept(date: string, ops: readonly Op[] = HAND_OPS): KeptDay {
  const { board, entries } = played(ops);
  const closed = { day: { ...board.day, date }, from: 1, to: entries.length, rules: board.barn.rules };
  return keptDay(closed, entries);
}

function open(
  today: readonly Entry[],
  date = '2026-05-16',
  storage: { folder: string } | { days: KeptDay[] } = { folder },
) {
  const board: Board = { barn, day: emptyDay(date), findings: [], worked: [] };
  return new Accounts({
    storage: {
      daysFolder: 'folder' in storage ? storage.folder : null,
      days: () => Promise.resolve({ days: 'days' in storage ? storage.days : [], damaged: [] }),
    },
    board: () => board,
    dayEntries: () => Promise.resolve(today),
    barnNow: () => 0,
    log: (line) => expect.fail(line),
  });
}

async function ask(from: string, until: string): Promise<{ account: Account; damaged: string[] }> {
  return AccountAnswer.parse(JSON.parse(await accounts.text({ from, until })));
}

const hoursOf = ({ people }: Account, who: string): number | undefined =>
  people.find(({ person }) => person === who)?.ms;

test('a week is the sum of its days, and the days before it count for days in a row', async () => {
  for (let n = 4; n <= 12; n += 1) await writeDay(folder, handKept(`2026-05-${String(n).padStart(2, '0')}`));
  accounts = open([]);
  const { from, until } = weekOf('2026-05-12') ?? { from: '', until: '' };
  expect([from, until]).toEqual(['2026-05-11', '2026-05-17']);
  const { account } = await ask(from, until);
  // Monday and Tuesday only; fern and moss 60 min in lessons each, sorrel 30 (tests/unit/ledger/day.test.ts).
  expect(account.dates).toEqual(['2026-05-11', '2026-05-12', '2026-05-16']);
  expect(account.horses.map(({ horse, lessonMs }) => [horse, lessonMs])).toEqual([
    ['fern', min(2 * 60)],
    ['moss', min(2 * 60)],
    ['sorrel', min(2 * 30)],
  ]);
  // Worked since Monday the 4th: Tuesday the 12th is the ninth day in a row. Only the seven before are looked at: 7 + 1.
  expect(account.horses[0]?.over.filter(({ date }) => date === '2026-05-12')).toEqual([
    { date: '2026-05-12', code: 'days-in-a-row', figure: 8, limit: 6 },
    { date: '2026-05-12', code: 'days-per-week', figure: 7, limit: 6 },
  ]);
});

test('a correction said on a later day, or today, counts for the day it is about', async () => {
  const [ada, cho] = HAND_CORRECTIONS;
  if (!ada || !cho) throw new Error('no corrections');
  await writeDay(folder, handKept('2026-05-11'));
  accounts = open([]);
  // 13:00–15:15; 14:00–15:20.
  const tapped = (await ask('2026-05-11', '2026-05-11')).account;
  expect([hoursOf(tapped, 'ada'), hoursOf(tapped, 'cho')]).toEqual([min(135), min(80)]);
  await accounts.stop();

  const later = { ...handKept('2026-05-13', []), entries: [entry(1, ada.fact, { id: ada.id, by: 'ines' })] };
  await writeDay(folder, later);
  accounts = open([entry(1, cho.fact, { id: cho.id, by: 'ines' })]);
  // 13:00–15:40; 13:50–15:20.
  const right = (await ask('2026-05-11', '2026-05-11')).account;
  expect([hoursOf(right, 'ada'), hoursOf(right, 'cho')]).toEqual([min(160), min(90)]);
  expect(right.corrections.map(({ id }) => id)).toEqual(['right0', 'right1']);
});

test('asked again it says the same, and a file written anew is read anew', async () => {
  await writeDay(folder, handKept('2026-05-11'));
  accounts = open([]);
  const first = await ask('2026-05-11', '2026-05-17');
  expect(await ask('2026-05-11', '2026-05-17')).toEqual(first);
  await rm(join(folder, '2026-05-11.json'));
  await writeDay(folder, { ...handKept('2026-05-11'), entries: [] });
  expect((await ask('2026-05-11', '2026-05-17')).account.people.every(({ ms }) => ms === 0)).toBe(true);
});

test('a damaged file is named, and the others still count', async () => {
  await writeDay(folder, handKept('2026-05-11'));
  await writeDay(folder, handKept('2026-05-12'));
  await writeFile(join(folder, '2026-05-12.json'), '{"version":2');
  accounts = open([]);
  const { account, damaged } = await ask('2026-05-11', '2026-05-12');
  expect(damaged).toEqual(['2026-05-12.json']);
  expect(account.dates).toEqual(['2026-05-11']);
});

test('days kept in memory come to the same as days on disk', async () => {
  await writeDay(folder, handKept('2026-05-11'));
  accounts = open([]);
  const disk = await ask('2026-05-10', '2026-05-12');
  await accounts.stop();
  accounts = open([], '2026-05-16', { days: [handKept('2026-05-11')] });
  expect(await ask('2026-05-10', '2026-05-12')).toEqual(disk);
});
