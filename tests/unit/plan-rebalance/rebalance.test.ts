/** What a rebalance offers. Figures by hand from the stage minutes 4, 11 and 8: a whole horse takes 23. */
import { describe, expect, test } from 'vitest';
import { rebalance, rebalanceSteps } from '#core/plan/rebalance/rebalance.ts';
import type { PlanInput } from '#core/plan/model.ts';
import type { Rebalanced } from '#core/plan/rebalance/model.ts';
import { at, barn, minutes, NOW } from './barn.ts';

function offered(input: PlanInput, options: { findingRate?: number } = {}): Rebalanced {
  return rebalance(input, { ...options, budget: { steps: 400 } });
}

describe('a person with too much', () => {
  // Ada: fern 0–23, moss 23–46, ramp 30: 16 late. Ben has nothing to do.
  const input = barn(
    [
      { id: 'fern', ramp: 28 },
      { id: 'moss', ramp: 30 },
    ],
    [{ id: 'ada', queue: ['fern', 'moss'] }, { id: 'ben' }],
  );
  const answer = offered(input);

  test('gives the whole of the late horse to who is free', () => {
    expect(answer.verdict).toBe('better');
    expect(answer.now).toMatchObject({ undone: 0, latenessMs: minutes(16) });
    expect(answer.alternatives).toHaveLength(1);
    expect(answer.alternatives[0]?.moves).toEqual([
      {
        pieces: ['moss.1:feet', 'moss.1:coat', 'moss.1:tack'],
        prep: 'moss.1',
        horse: 'moss',
        stages: ['feet', 'coat', 'tack'],
        from: 'ada',
        to: 'ben',
        before: null,
        beforeHorse: null,
      },
    ]);
  });

  test('says for each lesson and person what was and would be', () => {
    const [one] = answer.alternatives;
    expect(one?.lessons).toEqual([
      {
        lesson: 'lesson-moss',
        before: { at: at(46), lateMs: minutes(16) },
        after: { at: at(23), lateMs: minutes(-7) },
      },
    ]);
    expect(one?.people.map(({ person, before, after }) => [person, before.at, after.at])).toEqual([
      ['ada', at(46), at(23)],
      ['ben', null, at(23)],
    ]);
    expect(one?.why).toEqual({
      gain: { code: 'lessonEarlier', lesson: 'lesson-moss', minutes: 23 },
      later: null,
    });
  });

  test('knows that no plan is better: fern alone takes 23 of 28, and five minutes of spare are enough', () => {
    expect(answer.alternatives[0]?.worth.latenessMs).toBe(minutes(-5));
    expect(answer.boundMs).toBe(minutes(-5));
    expect(answer.alternatives[0]?.proven).toBe(true);
  });
});

describe('quiet by default', () => {
  test('says nothing when every horse has time to spare', () => {
    const answer = offered(
      barn(
        [
          { id: 'fern', ramp: 60 },
          { id: 'moss', ramp: 80 },
        ],
        [{ id: 'ada', queue: ['fern', 'moss'] }, { id: 'ben' }],
      ),
    );
    expect([answer.verdict, answer.alternatives]).toEqual(['inTime', []]);
  });

  test('says that nothing better exists, when that is so: one person, one horse, three minutes late', () => {
    const answer = offered(barn([{ id: 'fern', ramp: 20, feetBy: false }], [{ id: 'ada', queue: ['fern'] }]));
    expect(answer.verdict).toBe('provenBest');
    expect([answer.now.latenessMs, answer.boundMs, answer.proven]).toEqual([minutes(3), minutes(3), true]);
  });

  test('does not offer half a minute: ben is a little faster', () => {
    // Ada's 23 minutes on fern (ramp 20) end 3 late; at ben's pace 22.54, 2.54 late.
    const answer = offered(
      barn(
        [{ id: 'fern', ramp: 20, feetBy: false }],
        [
          { id: 'ada', queue: ['fern'] },
          { id: 'ben', pace: 0.98 },
        ],
      ),
    );
    expect([answer.verdict, answer.alternatives]).toEqual(['provenBest', []]);
    expect(answer.boundMs).toBeLessThan(minutes(2.55));
  });

  test('nothing is open', () => {
    expect(offered(barn([{ id: 'fern', ramp: 20, open: [] }], [{ id: 'ada' }])).verdict).toBe('nothingToDo');
  });
});

describe('feet first', () => {
  /*
   * One person, fern before moss, each 4 + 11 + 8. Rate 0.5 so that a minute late costs half a minute.
   * As it stands fern's feet end at 4, just in time, and moss's at 27. Feet first for both: fern 4 + 4 + 11 + 8 = 27, moss 46, moss's feet at 8.
   */
  const one = (ramps: [number, number], feetBy: number): PlanInput =>
    barn(
      [
        { id: 'fern', ramp: ramps[0], feetBy: 4 },
        { id: 'moss', ramp: ramps[1], feetBy },
      ],
      [{ id: 'ada', queue: ['fern', 'moss'] }],
    );

  test('wins where the others can wait: 9.5 minutes expected against none', () => {
    // Moss's feet-by 8: now 0.5 × (27 − 8) = 9.5; feet first costs nothing, fern's ramp of 40 leaves the 4 minutes.
    const answer = offered(one([40, 60], 8), { findingRate: 0.5 });
    expect(answer.now.tardinessMs).toBe(minutes(9.5));
    expect(answer.alternatives[0]?.worth.tardinessMs).toBe(0);
    expect(answer.alternatives[0]?.moves).toMatchObject([
      { pieces: ['moss.1:feet'], from: 'ada', to: 'ada', before: 'fern.1:coat' },
    ]);
    expect(answer.alternatives[0]?.why.gain).toEqual({ code: 'feetSooner', horse: 'moss', minutes: 19 });
  });

  test('loses where a horse would be late for it: 4 minutes late are dearer than 2.5 expected', () => {
    // Fern's ramp is 23: it cannot wait 4 minutes. Feet-by 22: now 0.5 × (27 − 22) = 2.5, feet first 4 late.
    const answer = offered(one([23, 60], 22), { findingRate: 0.5 });
    expect(answer.now).toEqual({ undone: 0, latenessMs: 0, tardinessMs: minutes(2.5) });
    expect(answer.alternatives).toEqual([]);
  });

  test('is weighed by what a check finds: at one in a hundred the same move is not worth a tap', () => {
    // 0.01 × 19 = 0.19 minutes.
    const answer = offered(one([40, 60], 8), { findingRate: 0.01 });
    expect(answer.now.tardinessMs).toBe(minutes(0.19));
    expect([answer.verdict, answer.alternatives]).toEqual(['inTime', []]);
  });

  test('never counts as a horse being late', () => {
    const answer = offered(one([40, 60], 8), { findingRate: 0.5 });
    expect(answer.now.latenessMs).toBe(minutes(-14));
  });
});

describe('what binds', () => {
  test('a stage under way stays with its person', () => {
    // Ada began fern's feet two minutes ago and is four times as slow: 16 of which 2 are gone, if nothing else is known.
    const answer = offered(
      barn(
        [{ id: 'fern', ramp: 30, underWay: { by: 'ada', since: -2 } }],
        [{ id: 'ada', pace: 4, queue: ['fern'] }, { id: 'ben' }],
      ),
    );
    for (const { moves } of answer.alternatives) {
      expect(moves.flatMap((move) => move.pieces)).not.toContain('fern.1:feet');
    }
    expect(answer.alternatives[0]?.moves[0]).toMatchObject({
      pieces: ['fern.1:coat', 'fern.1:tack'],
      to: 'ben',
    });
  });

  test('nobody is offered work they are not cleared for, nor before they come, nor in a lesson', () => {
    const late = [
      { id: 'fern', ramp: 28 },
      { id: 'moss', ramp: 30 },
    ];
    const ada = { id: 'ada', queue: ['fern', 'moss'] };
    const uncleared = offered(barn(late, [ada, { id: 'ben', clearances: ['lead'] }]));
    const leading = offered(barn(late, [ada, { id: 'ben', busy: [{ from: 0, until: 60 }] }]));
    const away = offered(barn(late, [ada, { id: 'ben', from: 60 }]));
    const going = offered(barn(late, [ada, { id: 'ben', until: 3 }]));
    for (const { alternatives } of [uncleared, leading, away, going]) {
      expect(alternatives.flatMap(({ moves }) => moves.filter(({ to }) => to === 'ben'))).toEqual([]);
    }
  });

  test('who leads a late horse may finish it, and no bound says otherwise', () => {
    // Ada alone may tack; she leads fern from 20 on. Feet and coat end at 15, tack at 23: 3 late at the ramp.
    const { now, boundMs } = offered(
      barn(
        [{ id: 'fern', ramp: 20, feetBy: false }],
        [{ id: 'ada', queue: ['fern'], busy: [{ from: 20, until: 60, horse: 'fern' }] }],
      ),
    );
    expect(now.latenessMs).toBe(minutes(3));
    expect(boundMs).toBeLessThanOrEqual(minutes(3));
  });
});

describe('work that is nobody’s', () => {
  test('is given, as an offer of its own, to who is expected to take it', () => {
    const answer = offered(barn([{ id: 'fern', ramp: 60 }], [{ id: 'ada' }]));
    expect(answer.verdict).toBe('inTime');
    expect(answer.giveOut?.moves).toMatchObject([
      { pieces: ['fern.1:feet', 'fern.1:coat', 'fern.1:tack'], from: null, to: 'ada' },
    ]);
    expect(answer.giveOut?.why).toEqual({ gain: { code: 'givenOut', pieces: 3 }, later: null });
  });

  test('nothing is nobody’s: no such offer', () => {
    expect(offered(barn([{ id: 'fern', ramp: 60 }], [{ id: 'ada', queue: ['fern'] }])).giveOut).toBeNull();
  });
});

describe('what cannot be planned is named, the rest is planned', () => {
  const moss = { id: 'moss', ramp: 60 };
  const fern = { id: 'fern', ramp: 60 };

  test('nobody is here', () => {
    const answer = offered(barn([fern, moss], []));
    expect(answer.cannot.map(({ horse, why }) => [horse, why])).toEqual([
      ['fern', 'nobodyHere'],
      ['moss', 'nobodyHere'],
    ]);
    expect(answer.now).toEqual({ undone: 2, latenessMs: null, tardinessMs: 0 });
    expect(answer.verdict).toBe('provenBest');
  });

  test('nobody here is cleared to tack one horse', () => {
    const answer = offered(
      barn(
        [fern, { ...moss, experiencedFor: ['tack'] }],
        [{ id: 'ada', clearances: ['feet', 'coat', 'tack'], queue: ['fern', 'moss'] }],
      ),
    );
    expect(answer.cannot).toEqual([
      { prep: 'moss.1', horse: 'moss', piece: 'moss.1:tack', stage: 'tack', why: 'nobodyCleared' },
    ]);
    // Fern is done at 23.
    expect(answer.now).toMatchObject({ undone: 1, latenessMs: minutes(-37) });
  });

  test('everybody cleared goes home first', () => {
    const answer = offered(barn([fern], [{ id: 'ada', until: 10, queue: ['fern'] }]));
    expect(answer.cannot).toMatchObject([{ piece: 'fern.1:coat', why: 'nobodyFree' }]);
  });

  test('due in the past: as late as that, and still planned', () => {
    const answer = offered(
      barn(
        [
          { id: 'fern', ramp: -30, feetBy: false },
          { ...moss, ramp: -10, feetBy: false },
        ],
        [{ id: 'ada', queue: ['moss', 'fern'] }, { id: 'ben' }],
      ),
    );
    // Fern last: 46 + 30 = 76 late. Given to ben: 23 + 30 = 53.
    expect(answer.now.latenessMs).toBe(minutes(76));
    expect(answer.alternatives[0]?.worth.latenessMs).toBe(minutes(53));
    expect(answer.alternatives[0]?.proven).toBe(true);
  });

  test('a horse due next week is not today’s, and hides nothing', () => {
    const answer = offered(
      barn(
        [
          { id: 'fern', ramp: 7 * 24 * 60 },
          { ...moss, ramp: 20, feetBy: false },
        ],
        [{ id: 'ada', queue: ['moss', 'fern'] }],
      ),
    );
    expect(answer.cannot).toMatchObject([{ horse: 'fern', why: 'notToday' }]);
    expect([answer.now.latenessMs, answer.boundMs]).toEqual([minutes(3), minutes(3)]);
  });

  test.each([NaN, Infinity, -1, 1e300])('a time of %s is left out by name', (n) => {
    const input = barn([fern, moss], [{ id: 'ada', queue: ['fern', 'moss'] }]);
    const [first, second] = input.works;
    if (!first || !second) throw new Error('two works');
    const answer = offered({ ...input, works: [{ ...first, rampTime: n }, second] });
    expect(answer.leftOut).toContainEqual({ what: 'prep', id: 'fern.1', why: 'badTime' });
    expect(answer.now.undone).toBe(0);
  });

  test('a clock that cannot be: an empty answer, no error', () => {
    expect(offered({ ...barn([fern], []), now: NaN }).leftOut).toContainEqual({
      what: 'everything',
      id: 'now',
      why: 'badTime',
    });
  });
});

describe('anytime', () => {
  const input = barn(
    Array.from({ length: 6 }, (_, i) => ({ id: `h${i}`, ramp: 30 + 4 * i })),
    [{ id: 'ada', queue: ['h0', 'h1', 'h2', 'h3', 'h4', 'h5'] }, { id: 'ben' }, { id: 'cho', from: 20 }],
  );

  test('every step has an answer, and each new one is as good as the one before', () => {
    let worst = Infinity;
    let last: Rebalanced | null = null;
    for (const answer of rebalanceSteps(input)) {
      const best = answer.alternatives.at(-1)?.worth ?? answer.now;
      if (answer !== last) expect(best.latenessMs).toBeLessThanOrEqual(worst + 60_000);
      worst = Math.min(worst, best.latenessMs ?? Infinity);
      last = answer;
    }
    expect(last?.verdict).toBe('better');
  });

  test('same seed and steps: same answer', () => {
    expect(rebalance(input, { seed: 3, budget: { steps: 60 } })).toEqual(
      rebalance(input, { seed: 3, budget: { steps: 60 } }),
    );
  });

  test('a deadline already past still gives an answer', () => {
    expect(rebalance(input, { budget: { deadline: () => true } }).asOf).toBe(NOW);
  });
});
