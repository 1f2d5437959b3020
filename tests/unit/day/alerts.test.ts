/** What calls for attention, which of it is shown, and how often it did in a day. */
import { describe, expect, it } from 'vitest';
import { aisleAlerts, feetAlerts } from '#core/day/alerts/aisle.ts';
import { ALERT_KINDS, inTurn, type Alert } from '#core/day/alerts/alert.ts';
import { behindAlerts, deskAlerts } from '#core/day/alerts/desk.ts';
import { doorAlerts, OPEN_ROLE_CALLS_MS, roleAlerts } from '#core/day/alerts/door.ts';
import { hubAlerts } from '#core/day/alerts/hub.ts';
import { ANEW_AFTER_MS, look, standingSince } from '#core/day/alerts/raised.ts';
import type { Board } from '#core/day/board.ts';
import { evolve } from '#core/day/evolve.ts';
import type { Entry, Fact } from '#core/day/ops.ts';
import type { DayAlerts } from '#core/ledger/account.ts';
import { alertLoad, alertsOf, ENDURED } from '#core/ledger/alerts.ts';
import { forecast } from '#core/plan/forecast.ts';
import { withHysteresis } from '#core/plan/hysteresis.ts';
import { planInput } from '#core/plan/input.ts';
import { HOUR_MS, MINUTE_MS } from '#core/time/units.ts';
import { entry, NOON, smallBoard } from '../../properties/day-arbitraries.ts';
import { source } from '../../reference/source.ts';

const after = (board: Board, ...facts: Fact[]): Board =>
  facts.reduce((b, fact, i) => evolve(b, entry(60 + i, fact)), board);
const kinds = (alerts: readonly Alert[]): string[] => alerts.map(({ kind }) => kind);
const known = (board: Board, now: number) => withHysteresis(null, forecast(planInput(board, now)));

const HEAT: Fact = {
  kind: 'findingSeen',
  horse: 'fern',
  finding: { on: 'foot', foot: 'RF', kind: 'heat' },
  words: '',
};
const HAND: Fact = { kind: 'helpAsked', horse: 'moss', call: 'hand', to: null };

describe('what calls where', () => {
  it('a hand calls on every board, until somebody comes; then only its end is asked', () => {
    const asked = after(smallBoard(), HAND);
    for (const at of [
      aisleAlerts(asked, null, NOON, []),
      doorAlerts(asked, NOON, null),
      deskAlerts(asked, null, NOON),
    ])
      expect(kinds(at)).toContain('hand');
    const id = asked.day.help[0]?.id ?? '';
    const coming = evolve(asked, { ...entry(70, { kind: 'helpAnswered', help: id }), by: 'ada' });
    expect(kinds(aisleAlerts(coming, null, NOON, []))).toEqual(['answered']);
    const ended = evolve(coming, { ...entry(71, { kind: 'helpEnded', help: id }), by: 'ada' });
    expect(aisleAlerts(ended, null, NOON, [])).toEqual([]);
  });

  it('a finding calls at the door and the desk, by what the barn’s rules make of it, until it is read', () => {
    const found = after(smallBoard(), HEAT);
    const [alert] = doorAlerts(found, NOON, null);
    expect(alert?.kind).toBe('wait');
    expect(aisleAlerts(found, null, NOON, [])).toEqual([]);
    const finding = found.findings[0]?.id ?? '';
    const read = evolve(found, { ...entry(70, { kind: 'findingRead', finding }), by: 'ines' });
    expect(kinds(doorAlerts(read, NOON, null))).not.toContain('wait');
  });

  it('feet call from the feet-by time on, until they are checked, the horse is pulled or the ramp time has come', () => {
    const board = smallBoard();
    const plan = known(board, NOON);
    const fern = plan.preps['fern.1'];
    if (!fern || fern.feetBy === null) throw new Error('no feet-by time');
    const due = Math.max(fern.feetBy, NOON) + MINUTE_MS;
    const of = (b: Board, now: number, stalls: string[] = []) =>
      feetAlerts(b, plan, now, stalls).filter(({ horse }) => horse === 'fern');
    expect(of(board, fern.feetBy - MINUTE_MS)).toEqual([]);
    expect(of(board, due)).toHaveLength(1);
    expect(of(board, fern.rampTime + 1)).toEqual([]);
    expect(of(board, due, ['elsewhere'])).toEqual([]);
    expect(of(after(board, { kind: 'stagesFinished', prep: 'fern.1', stages: ['feet'] }), due)).toEqual([]);
    expect(of(after(board, { kind: 'horsePulled', horse: 'fern', why: 'x', hold: 'today' }), due)).toEqual(
      [],
    );
  });

  it('a role nobody has calls half an hour before its lesson, once for the lesson, in its own arena', () => {
    const roles: Fact = {
      kind: 'rolesChanged',
      changes: [
        { lesson: 'L1', place: 'p1', role: 'leader', out: null, in: 'ada' },
        { lesson: 'L1', place: 'p2', role: 'sideWalker', out: null, in: 'cho' },
      ],
    };
    const gone = after(
      smallBoard(),
      roles,
      { kind: 'volunteerLeft', volunteer: 'ada' },
      { kind: 'volunteerLeft', volunteer: 'cho' },
    );
    const start = gone.day.lessons['L1']?.start ?? 0;
    expect(roleAlerts(gone, start - OPEN_ROLE_CALLS_MS - 1, null)).toEqual([]);
    expect(roleAlerts(gone, start - OPEN_ROLE_CALLS_MS, null)).toMatchObject([
      { lesson: 'L1', roles: ['leader', 'leader', 'sideWalker'] },
    ]);
    expect(roleAlerts(gone, start, 'a1')).toEqual([]);
  });

  it('who is named as behind calls at the desk', () => {
    const late = NOON + 55 * MINUTE_MS;
    const plan = known(smallBoard(), late);
    const named = Object.values(plan.hands).filter(({ since }) => since !== null);
    expect(named.length).toBeGreaterThan(0);
    expect(behindAlerts(smallBoard(), plan).map(({ volunteer }) => volunteer)).toEqual(
      named.map(({ volunteer }) => volunteer),
    );
  });
});

const alertOf = (kind: Alert['kind'], since = 0, more: object = {}): Alert =>
  ({ kind, key: `${kind}:${since}`, since, ...more }) as Alert;

describe('whose turn it is', source('ISA-18.2: by consequence and time left (from memory)'), () => {
  it('the most urgent kind, whatever else stands', () => {
    const all = ALERT_KINDS.map((kind) => alertOf(kind, 0, { isFresh: true }));
    const { shown, waiting } = inTurn(all.toReversed());
    expect(kinds([...(shown ? [shown] : []), ...waiting])).toEqual(ALERT_KINDS);
  });

  it('a declined tap is first while whoever made it is there, and then lets all else go before it', () => {
    const fresh = alertOf('notDone', 5, { isFresh: true });
    const old = alertOf('notDone', 5, { isFresh: false });
    expect(inTurn([alertOf('callNow'), fresh]).shown).toBe(fresh);
    expect(inTurn([alertOf('carryOn'), old]).shown?.kind).toBe('carryOn');
    expect(inTurn([old]).shown).toBe(old);
  });

  it('nothing calls where nothing is', () => expect(inTurn([])).toEqual({ shown: null, waiting: [] }));

  it('a hub that cannot write goes before what follows from it, and after a horse in trouble', () => {
    const hub = hubAlerts({
      status: { readOnly: { since: 1, why: 'full' }, tornTail: { bytes: 3, keptAs: 'x' }, clockJump: null },
      awaySince: null,
      isUnreadable: false,
    });
    expect(kinds(hub)).toEqual(['notKept', 'damage']);
    expect(inTurn([...hub, alertOf('behind')]).shown?.kind).toBe('notKept');
    expect(inTurn([...hub, alertOf('hand')]).shown?.kind).toBe('hand');
  });
});

describe('calls counted', () => {
  it('what time brings is raised once, and anew only after it was gone for a while', () => {
    const feet = alertOf('feetBy', 0, { prep: 'fern.1' });
    const first = look(new Map(), [feet], NOON);
    expect(first.raised).toEqual([{ alert: 'feetBy', about: 'fern.1' }]);
    const still = look(first.standing, [feet], NOON + MINUTE_MS);
    expect(still.raised).toEqual([]);
    const back = look(look(still.standing, [], NOON + 2 * MINUTE_MS).standing, [feet], NOON + 3 * MINUTE_MS);
    expect(back.raised).toEqual([]);
    expect(look(still.standing, [feet], NOON + 2 * MINUTE_MS + ANEW_AFTER_MS).raised).toHaveLength(1);
    expect(look(standingSince(first.raised, NOON), [feet], NOON + 1).raised).toEqual([]);
  });

  it('the day has findings by horse, hands, declined taps and what was raised, tapped or not', () => {
    const at = (minutes: number, fact: Fact | null, why: Entry['why'] = null): Entry => ({
      ...entry(minutes, fact ?? HAND),
      at: NOON + minutes * MINUTE_MS,
      tappedAt: NOON + minutes * MINUTE_MS,
      facts: fact ? [fact] : [],
      why,
    });
    const entries = [
      at(0, HEAT),
      at(1, { ...HEAT, finding: { on: 'foot', foot: 'LF', kind: 'shoe-sprung' } }),
      at(2, HAND),
      at(3, null, { code: 'needsName' }),
      { ...at(4, { kind: 'alertsRaised', alerts: [{ alert: 'behind', about: 'moss.1' }] }), device: 'hub' },
      at(120, { ...HEAT, finding: { on: 'manner', kind: 'calm' } }),
    ];
    const day = smallBoard().day;
    const { barn } = smallBoard();
    const account = alertsOf({ date: '2026-05-11', day, entries, rules: null, now: null }, barn.rules.care);
    expect(account.calls.map(({ kind }) => kind)).toEqual(['wait', 'hand', 'notDone', 'behind']);
    expect(account.ms).toBe(2 * HOUR_MS);
    expect(alertLoad([account])).toMatchObject({ count: 4, anHour: 2, worstHour: 4, worstTenMinutes: 4 });
  });

  it('against what one person can take', source('EEMUA 191, as a training sheet gives it'), () => {
    expect(ENDURED).toEqual({ anHour: 5, inTheWorstHour: 15, flood: 10 });
    const everySixMinutes: DayAlerts = {
      date: '2026-05-11',
      ms: 4 * HOUR_MS,
      calls: Array.from({ length: 40 }, (_, i) => ({
        at: NOON + i * 6 * MINUTE_MS,
        kind: 'behind' as const,
      })),
    };
    // Worked by hand: ten an hour; within any hour ten; within ten minutes two.
    expect(alertLoad([everySixMinutes])).toMatchObject({ anHour: 10, worstHour: 10, worstTenMinutes: 2 });
  });
});
