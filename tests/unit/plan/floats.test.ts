/** Floats against a textbook network, and in a stable aisle. */
import { describe, expect, test } from 'vitest';
import { criticalPath } from '#core/plan/criticalPath.ts';
import { floats, type Planned } from '#core/plan/floats.ts';

const NO_BOUNDS = { duties: [], until: null };

function planned(
  id: string,
  work: string,
  by: string,
  start: number,
  end: number,
  more: Partial<Planned> = {},
): Planned {
  return { id, work, horse: work, by, start, end, lead: 0, neededBy: Infinity, rampTime: null, ...more };
}

/**
 * Eight activities of a PERT network, durations 2 3 2 4 4 3 5 2: C after A; D after A and B; E and F after C; G after D
 * and E; H after F and G. A common textbook example (foundry, Heizer and Render), inputs from memory. Works and people
 * are chosen so that their chains make up just these arrows.
 */
const NETWORK: readonly Planned[] = [
  planned('A', 'w1', 'p1', 0, 2),
  planned('B', 'w2', 'p4', 0, 3),
  planned('C', 'w1', 'p2', 2, 4),
  planned('D', 'w2', 'p1', 3, 7),
  planned('E', 'w1', 'p3', 4, 8),
  planned('F', 'w3', 'p2', 4, 7),
  planned('G', 'w1', 'p1', 8, 13),
  planned('H', 'w1', 'p2', 13, 15, { neededBy: 15, rampTime: 15 }),
];

describe('textbook network', () => {
  const found = floats(NETWORK, () => NO_BOUNDS);

  test('total float of every activity', () => {
    expect(Object.fromEntries(found.ofPiece)).toEqual({ A: 0, B: 1, C: 0, D: 1, E: 0, F: 6, G: 0, H: 0 });
  });

  test('free float of activities that stand alone: B 0, E 0, F 6; of B and D together, D’s 1', () => {
    expect(found.ofPerson.get('p4')?.freeMs).toBe(0);
    expect(found.ofPerson.get('p3')?.freeMs).toBe(0);
    expect(found.ofWork.get('w3')?.freeMs).toBe(6);
    expect(found.ofWork.get('w2')).toEqual({ totalMs: 1, freeMs: 1 });
  });

  test('the same total floats as the plain critical path method', () => {
    const after = [[], [], [0], [0, 1], [2], [2], [3, 4], [5, 6]];
    const network = criticalPath(
      [2, 3, 2, 4, 4, 3, 5, 2].map((duration, i) => ({ duration, after: after[i] ?? [] })),
    );
    if (network.kind !== 'network') throw new Error('refused');
    expect(network.activities.map((activity) => activity.totalFloat)).toEqual([...found.ofPiece.values()]);
  });
});

describe('in the aisle', () => {
  const plan = [
    planned('x:coat', 'x', 'ada', 0, 11, { neededBy: 25 }),
    planned('x:tack', 'x', 'ben', 14, 22, { lead: 1, neededBy: 30, rampTime: 30 }),
    planned('y:coat', 'y', 'ada', 12, 23, { lead: 1, neededBy: 26, rampTime: 26 }),
  ];

  test('total float counts what comes after on the horse and for the person, with the moment in between', () => {
    const found = floats(plan, () => NO_BOUNDS);
    // x:tack must start by 30 − 8 = 22, x:coat end by 21; y:coat by 15, x:coat end by 14.
    expect(found.ofPiece.get('x:coat')).toBe(3);
    expect(found.ofPerson.get('ada')?.totalMs).toBe(3);
    expect(found.ofPerson.get('ben')?.totalMs).toBe(8);
  });

  test('free float stops where somebody else, the ramp or a lesson would have to wait', () => {
    expect(floats(plan, () => NO_BOUNDS).ofPerson.get('ada')?.freeMs).toBe(2);
    const due = { duties: [{ from: 23.5, until: 60, horse: 'z' }], until: null };
    expect(floats(plan, (person) => (person === 'ada' ? due : NO_BOUNDS)).ofPerson.get('ada')).toEqual({
      totalMs: 0.5,
      freeMs: 0.5,
    });
  });

  test('a duty with the very horse does not stop its preparation; going home does', () => {
    const own = { duties: [{ from: 23.5, until: 60, horse: 'y' }], until: null };
    const boundsOf = (person: string) => (person === 'ada' ? own : NO_BOUNDS);
    expect(floats(plan.slice(2), boundsOf).ofPerson.get('ada')?.totalMs).toBe(3);
    expect(floats(plan.slice(2), () => ({ duties: [], until: 24 })).ofPerson.get('ada')?.totalMs).toBe(1);
  });

  test('what is late already has a total float below zero and no free float', () => {
    const late = [planned('x:coat', 'x', 'ada', 0, 11, { neededBy: 8, rampTime: 8 })];
    expect(floats(late, () => NO_BOUNDS).ofWork.get('x')).toEqual({ totalMs: -3, freeMs: 0 });
  });
});
