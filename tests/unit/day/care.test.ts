/** Care as it is told on the board: weather, isolation, farrier, condition, and the words a release needs. */
import { describe, expect, test } from 'vitest';
import type { Op, OpFact } from '#core/day/ops.ts';
import { redactBoard } from '#core/day/redact.ts';
import { Sequence } from '#core/day/sequence.ts';
import type { Role } from '#core/day/places.ts';
import { careNotes } from '#core/day/views/care.ts';
import { weatherNow } from '#core/day/views/weather.ts';
import { MINUTE_MS } from '#core/time/units.ts';
import { horse, NOON, smallBoard } from '../../properties/day-arbitraries.ts';

let n = 0;
function hub() {
  const sequence = new Sequence({ board: smallBoard(), seq: 0, at: 0, seen: [] });
  const say = (fact: OpFact, more: Partial<Op> = {}, role: Role = 'coordinator'): string | null => {
    n += 1;
    const op: Op = { id: `c${n}`, device: 'd1', by: 'ines', tappedAt: NOON + n * 1000, fact, ...more };
    return sequence.accept(op, role, NOON + 3_600_000).outcome.why?.code ?? null;
  };
  return { say, sequence };
}

const mild = { airF: 68, humidityPercent: 50, windMph: 5 };
const hot = { airF: 95, humidityPercent: 60, windMph: null };

describe('the weather', () => {
  test('is read by name, at the door or by the coordinator; the newest reading is shown, with its age', () => {
    const { say, sequence } = hub();
    expect(say({ kind: 'weatherRead', reading: mild }, { by: null })).toBe('needsName');
    expect(say({ kind: 'weatherRead', reading: mild }, {}, 'aisle')).toBe('notAllowedHere');
    expect(
      say({ kind: 'weatherRead', reading: hot }, { tappedAt: NOON + 20 * MINUTE_MS }, 'door'),
    ).toBeNull();
    // It was read before, and comes after.
    expect(say({ kind: 'weatherRead', reading: mild }, { tappedAt: NOON })).toBeNull();
    const at = (minutes: number) => weatherNow(sequence.board, NOON + minutes * MINUTE_MS);
    expect(at(30)).toMatchObject({
      by: 'Ines',
      ageMs: 10 * MINUTE_MS,
      isOld: false,
      advice: { level: 'unmounted' },
    });
    expect(at(30)?.worst?.level).toBe('unmounted');
    expect([at(80)?.isOld, at(81)?.isOld]).toEqual([false, true]);
  });

  test('a mild day asks for nothing; a reading can be taken back', () => {
    const { say, sequence } = hub();
    say({ kind: 'weatherRead', reading: mild }, { id: 'read' });
    expect(weatherNow(sequence.board, NOON)?.worst).toBeNull();
    expect(say({ kind: 'undone', op: 'read' })).toBeNull();
    expect(weatherNow(sequence.board, NOON)).toBeNull();
  });
});

test('a horse kept apart stays so through a saved record, until somebody named ends it', () => {
  const { say, sequence } = hub();
  expect(say({ kind: 'horseIsolated', horse: 'moss', why: 'bald patch' }, { by: null })).toBe('needsName');
  expect(say({ kind: 'horseIsolated', horse: 'moss', why: 'bald patch' })).toBeNull();
  say({ kind: 'horseIsolated', horse: 'moss', why: 'another' });
  say({ kind: 'recordSaved', saved: { table: 'horses', record: horse('moss', { kit: 'Green lid' }) } });
  expect(sequence.board.barn.horses['moss']).toMatchObject({
    kit: 'Green lid',
    isolation: { why: 'bald patch', by: 'ines' },
  });
  expect(careNotes(sequence.board, NOON)).toMatchObject([{ about: 'isolation', horse: 'moss' }]);
  expect(say({ kind: 'isolationEnded', horse: 'moss' })).toBeNull();
  expect(sequence.board.barn.horses['moss']?.isolation).toBeUndefined();
});

test('the farrier’s last visit counts, and the coordinator is told from six weeks on', () => {
  const { say, sequence } = hub();
  say({ kind: 'farrierCame', horse: 'fern', date: '2026-03-30' });
  say({ kind: 'farrierCame', horse: 'fern', date: '2026-03-01' });
  // 42 days before 2026-05-11; moss on the day before that is due no sooner.
  expect(sequence.board.barn.horses['fern']?.farrierOn).toBe('2026-03-30');
  say({ kind: 'farrierCame', horse: 'moss', date: '2026-03-31' });
  say({ kind: 'farrierCame', horse: 'sorrel', date: '2026-03-16' });
  expect(careNotes(sequence.board, NOON)).toMatchObject([
    { about: 'farrier', horse: 'fern', state: { kind: 'due-soon', daysUntilDue: 14 } },
    { about: 'farrier', horse: 'sorrel', state: { kind: 'due', daysUntilDue: 0 } },
  ]);
});

test('helmets are told of to the coordinator, and nobody else knows of them or of a condition score', () => {
  const { say, sequence } = hub();
  const helmet = { id: 'h1', name: 'Blue', boughtOn: '2021-05-11', knocked: false };
  say({ kind: 'recordSaved', saved: { table: 'helmets', record: helmet } });
  say({ kind: 'conditionScored', horse: 'fern', score: 4 });
  const { board } = sequence;
  expect(careNotes(board, NOON)).toMatchObject([
    { about: 'helmet', name: 'Blue', state: { kind: 'replace' } },
  ]);
  expect(board.barn.horses['fern']?.private).toMatchObject({ condition: 4, conditionSeen: { by: 'ines' } });
  for (const role of ['aisle', 'door'] as const) {
    const shown = JSON.stringify(redactBoard(board, role));
    expect(shown).not.toContain('Blue');
    expect(shown).not.toContain('conditionSeen');
  }
});

test('held for vet and farrier together, a horse needs the word of each', () => {
  const { say, sequence } = hub();
  for (const hold of ['vet', 'farrier'] as const)
    say({ kind: 'horsePulled', horse: 'fern', why: 'nail', hold });
  const release = { kind: 'horseReleased', horse: 'fern' } as const;
  expect(say({ ...release, word: '' })).toBe('needsWord');
  expect(say({ ...release, word: 'sound' })).toBe('needsWord');
  expect(say({ ...release, word: 'sound', farrierWord: ' ' })).toBe('needsWord');
  expect(say({ ...release, word: 'sound', farrierWord: 'shoe is on' })).toBeNull();
  expect(sequence.board.barn.horses['fern']?.holds).toEqual([]);
});

test('a seventh day of work in a row is told', () => {
  const { sequence } = hub();
  const dates = ['05', '06', '07', '08', '09', '10'].map((day) => `2026-05-${day}`);
  const worked = dates.map((date) => ({ date, horses: { moss: { lessons: 1, minutes: 30 } } }));
  expect(careNotes({ ...sequence.board, worked }, NOON)).toMatchObject([
    { about: 'work', horse: 'moss', over: { code: 'days-in-a-row', figure: 7 } },
    { about: 'work', horse: 'moss', over: { code: 'days-per-week', figure: 7 } },
  ]);
});
