/** What a tablet takes as the hub's message, against the schemas of the wire: those are what must agree. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { packed } from '#core/wire/compact.ts';
import { FromHub, REFUSALS } from '#core/wire/messages.ts';
import { demoBoard } from '../../../demo/day.ts';
import { heard } from '../../../kiosk/src/lib/link/heard.ts';

const NOON = Date.UTC(2026, 4, 12, 16);
const ENTRY = {
  seq: 1,
  at: NOON,
  id: 'op1',
  device: 'd1',
  by: null,
  tappedAt: NOON - 40,
  facts: [{ kind: 'volunteerArrived', volunteer: 'v1' }],
  why: null,
} as const;

const MESSAGES: FromHub[] = [
  {
    say: 'welcome',
    journal: 'j1',
    seq: 1,
    board: demoBoard('2026-05-12'),
    landed: [],
    entries: [{ ...ENTRY, facts: [...ENTRY.facts] }],
    clock: { hub: NOON, barn: NOON, rate: 1 },
    demo: true,
    build: 'b1',
    addresses: [],
  },
  { say: 'entries', entries: [{ ...ENTRY, facts: [...ENTRY.facts] }] },
  { say: 'answered', answers: [{ id: 'op1', seq: 1, why: null }] },
  { say: 'pong', t1: 1, t2: 2, t3: 3 },
  { say: 'considered', ask: 'a1', why: null, forecast: null },
  { say: 'standIns', ask: 'a1', why: null, found: null },
  { say: 'status', version: '1', readOnly: null, tornTail: null, clockJump: null },
  { say: 'tabletsKnown', tablets: [] },
  ...REFUSALS.map((code): FromHub => ({ say: 'refused', code })),
];

it.each(MESSAGES)('takes $say as its schema does', (message) => {
  const parsed = FromHub.parse(message);
  expect(heard(packed(parsed))).toEqual(parsed);
});

it('takes nothing that lacks what the message must carry, and nothing else', () => {
  fc.assert(
    fc.property(fc.oneof(fc.string(), fc.json()), (text) => {
      expect(heard(text)).toBeNull();
    }),
  );
  for (const say of ['entries', 'welcome', 'answered', 'forecast', 'greetings', 'constructor']) {
    expect(heard(JSON.stringify({ say }))).toBeNull();
  }
});
