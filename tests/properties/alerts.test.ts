/** Properties of what calls for attention, on boards after any taps. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { ALERT_KINDS, inTurn, type Alert } from '#core/day/alerts/alert.ts';
import { aisleAlerts } from '#core/day/alerts/aisle.ts';
import { deskAlerts } from '#core/day/alerts/desk.ts';
import { doorAlerts } from '#core/day/alerts/door.ts';
import { look } from '#core/day/alerts/raised.ts';
import { MINUTE_MS } from '#core/time/units.ts';
import { unreadHorses } from '#core/day/views/findings.ts';
import { openCalls } from '#core/day/help.ts';
import { Sequence } from '#core/day/sequence.ts';
import { NOON, opFact, ops, smallBoard } from './day-arbitraries.ts';

const boards = ops(opFact, 15).map((taps) => {
  const sequence = new Sequence({ board: smallBoard(), seq: 0, at: 0, seen: [] });
  for (const op of taps) sequence.accept(op, 'coordinator', op.tappedAt);
  return sequence.board;
});

test('every finding nobody has read and every call nobody has ended is among what calls at the desk, and only once', () => {
  fc.assert(
    fc.property(boards, (board) => {
      const desk = deskAlerts(board, null, NOON);
      const keys = desk.map(({ key }) => key);
      expect(new Set(keys).size).toBe(keys.length);
      for (const { horse } of unreadHorses(board)) expect(keys).toContain(`finding:${horse}`);
      for (const { id } of openCalls(board)) expect(keys).toContain(id);
    }),
  );
});

test('what calls on a wall calls at the desk too', () => {
  fc.assert(
    fc.property(boards, (board) => {
      const desk = new Set(deskAlerts(board, null, NOON).map(({ key }) => key));
      for (const { key } of [...aisleAlerts(board, null, NOON, []), ...doorAlerts(board, NOON, null)])
        expect(desk.has(key)).toBe(true);
    }),
  );
});

const alert: fc.Arbitrary<Alert> = fc
  .record({
    kind: fc.constantFrom(...ALERT_KINDS),
    key: fc.uuid(),
    since: fc.nat(100),
    isFresh: fc.boolean(),
    prep: fc.constantFrom('fern.1', 'moss.1'),
    lesson: fc.constant('L1'),
    id: fc.constant('readOnly'),
    piece: fc.constant(null),
  })
  .map((one) => one as unknown as Alert);

test('one is shown, all others wait, none is lost, in whatever order they come', () => {
  fc.assert(
    fc.property(
      fc.uniqueArray(alert, { selector: ({ key }) => key, maxLength: 12 }),
      fc.nat(),
      (alerts, turn) => {
        const { shown, waiting } = inTurn(alerts);
        const all = shown ? [shown, ...waiting] : [...waiting];
        expect(all.length).toBe(alerts.length);
        expect(new Set(all)).toEqual(new Set(alerts));
        const cut = turn % (alerts.length + 1);
        expect(inTurn([...alerts.slice(cut), ...alerts.slice(0, cut)])).toEqual({ shown, waiting });
        // Nothing that waits is more urgent than what is shown.
        const order = (one: Alert): number =>
          one.kind === 'notDone' && !one.isFresh
            ? ALERT_KINDS.indexOf('damage')
            : ALERT_KINDS.indexOf(one.kind);
        if (shown) for (const one of waiting) expect(order(one)).toBeGreaterThanOrEqual(order(shown));
      },
    ),
  );
});

test('what stands on and on is raised once, however often it is looked at', () => {
  fc.assert(
    fc.property(fc.array(alert, { maxLength: 6 }), fc.integer({ min: 1, max: 40 }), (alerts, looks) => {
      let standing: ReturnType<typeof look>['standing'] = new Map();
      const raised: string[] = [];
      for (let i = 0; i < looks; i += 1) {
        const seen = look(standing, alerts, NOON + i * MINUTE_MS);
        standing = seen.standing;
        if (i > 0) expect(seen.raised).toEqual([]);
        raised.push(...seen.raised.map(({ alert: kind, about }) => `${kind}:${about}`));
      }
      expect(new Set(raised).size).toBe(raised.length);
    }),
  );
});
