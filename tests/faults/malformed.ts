/** Frames made by hand that are no messages: each is wrong in one way, and right in the others where it can be. */
import type { FromTablet } from '#core/wire/messages.ts';
import { PROTOCOL } from '#core/wire/protocol.ts';

const OP = {
  id: 'm1',
  device: 'tablet-1',
  by: 'ada',
  tappedAt: 1_770_000_000_000,
  fact: { kind: 'stagesFinished', prep: 'fern.1', stages: ['feet'] },
};

const taps = (change: object): string => JSON.stringify({ say: 'taps', ops: [{ ...OP, ...change }] });
const fact = (change: object): string => taps({ fact: { ...OP.fact, ...change } });
const said = (message: unknown): string => JSON.stringify(message);

/** Deep enough to overflow a parser that recurses without care. */
const DEEP = 20_000;

const HELLO: FromTablet = {
  say: 'hello',
  protocol: PROTOCOL,
  device: 'tablet-1',
  place: { role: 'coordinator' },
  since: null,
};

export const MALFORMED: [name: string, frame: string | Buffer][] = [
  ['nothing', ''],
  ['a space', ' '],
  ['an open brace', '{'],
  ['no JSON', 'taps'],
  ['null', 'null'],
  ['a number', '7'],
  ['an array', '[]'],
  ['an empty object', '{}'],
  ['a byte of zero', '\u0000'],
  ['JSON with something after it', `${taps({})} x`],
  ['very deep JSON', '['.repeat(DEEP) + ']'.repeat(DEEP)],
  ['a binary frame', Buffer.from(taps({}))],
  ['an unknown message', said({ say: 'shout' })],
  ['a message of the hub', said({ say: 'answered', answers: [] })],
  ['a say that is no text', said({ say: ['taps'], ops: [OP] })],
  ['a say from the prototype', said({ say: 'constructor' })],
  ['a second hello', said(HELLO)],
  ['taps without ops', said({ say: 'taps' })],
  ['taps with no op', said({ say: 'taps', ops: [] })],
  [
    'taps with too many ops',
    said({ say: 'taps', ops: Array.from({ length: 201 }, (_, i) => ({ ...OP, id: `m${i}` })) }),
  ],
  ['ops as an object', said({ say: 'taps', ops: { 0: OP, length: 1 } })],
  ['one good op and one bad', said({ say: 'taps', ops: [OP, { ...OP, id: '' }] })],
  ['an op without id', taps({ id: undefined })],
  ['an id with a slash', taps({ id: '../m1' })],
  ['an id that is a prototype', taps({ id: '__proto__' })],
  ['an id too long', taps({ id: 'm'.repeat(33) })],
  ['an id that is a number', taps({ id: 1 })],
  ['a person that is an object', taps({ by: { toString: 'ada' } })],
  ['an op without device', taps({ device: undefined })],
  ['a tap before the year 2000', taps({ tappedAt: 0 })],
  ['a tap in a far future', taps({ tappedAt: 9e15 })],
  ['a tap between two milliseconds', taps({ tappedAt: 1_770_000_000_000.5 })],
  ['a tap at no time', taps({ tappedAt: null })],
  ['a tap time as text', taps({ tappedAt: '1770000000000' })],
  ['a number JSON has no word for', taps({}).replace('1770000000000', 'NaN')],
  ['a number too large', taps({}).replace('1770000000000', '1e999')],
  ['an unknown fact', fact({ kind: 'horsePainted' })],
  ['a fact only the hub may make', fact({ kind: 'tapKept' })],
  ['a fact from the prototype', fact({ kind: 'toString' })],
  ['no fact', taps({ fact: null })],
  ['an unknown stage', fact({ stages: ['mane'] })],
  ['no stage', fact({ stages: [] })],
  ['too many stages', fact({ stages: ['feet', 'coat', 'tack', 'feet', 'coat'] })],
  ['a prep key with a space', fact({ prep: 'fern 1' })],
  [
    'words too long',
    taps({ fact: { kind: 'horsePulled', horse: 'fern', why: 'x'.repeat(401), hold: 'vet' } }),
  ],
  ['an unknown hold', taps({ fact: { kind: 'horsePulled', horse: 'fern', why: '', hold: 'tired' } })],
  ['a record for no table', taps({ fact: { kind: 'recordSaved', saved: { table: 'ghosts', record: {} } } })],
  [
    'a record with half its fields',
    taps({ fact: { kind: 'recordSaved', saved: { table: 'stalls', record: { id: 's9' } } } }),
  ],
  ['a zone nobody has', taps({ fact: { kind: 'barnNamed', name: 'Barn', zone: 'Mars/Olympus' } })],
  ['a name of spaces', taps({ fact: { kind: 'barnNamed', name: '   ', zone: 'UTC' } })],
  ['a day that is no date', taps({ fact: { kind: 'dayOpened', date: '2026-13-01' } })],
  ['a ping without a time', said({ say: 'ping' })],
  ['a ping at an endless time', '{"say":"ping","t1":1e999}'],
  ['a what-if without facts', said({ say: 'whatIf', ask: 'q1', facts: [] })],
  [
    'a what-if with too many facts',
    said({ say: 'whatIf', ask: 'q1', facts: Array.from({ length: 21 }, () => OP.fact) }),
  ],
  ['a barn without a name', said({ say: 'startBarn', name: '', zone: 'UTC' })],
  ['a barn in no zone', said({ say: 'startBarn', name: 'Barn', zone: '' })],
];
