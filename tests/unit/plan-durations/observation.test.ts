/** Which taps make an observation. */
import { describe, expect, it } from 'vitest';
import { observe, type StageRecord } from '#core/plan/durations/observation.ts';

const MINUTE = 60_000;
const clean: StageRecord = {
  stage: 'coat',
  horse: 'Ash',
  people: ['Ann'],
  startedMs: 0,
  finishedMs: 12 * MINUTE,
  wentOnFromMs: null,
  pauses: [],
  otherEndsMs: [-MINUTE],
  undone: false,
};
const exact = (minutes: number) => ({
  kind: 'exact',
  observation: { stage: 'coat', horse: 'Ash', person: 'Ann', minutes },
});

it('takes a clean start and end', () => {
  expect(observe(clean)).toEqual(exact(12));
});

it('takes the end of the stage before where the same person went straight on', () => {
  expect(observe({ ...clean, startedMs: null, wentOnFromMs: 2 * MINUTE })).toEqual(exact(10));
});

it('prefers the tap "on it" to the end of the stage before', () => {
  expect(observe({ ...clean, wentOnFromMs: -9 * MINUTE })).toEqual(exact(12));
});

it('takes off closed pauses, whatever their order', () => {
  const pauses = [
    { fromMs: 8 * MINUTE, toMs: 9 * MINUTE },
    { fromMs: 2 * MINUTE, toMs: 5 * MINUTE },
  ];
  expect(observe({ ...clean, pauses })).toEqual(exact(8));
});

it('names a person once', () => {
  expect(observe({ ...clean, people: ['Ann', 'Ann'] })).toEqual(exact(12));
});

describe('leaves out', () => {
  const pause = (from: number, to: number | null) => ({
    fromMs: from * MINUTE,
    toMs: to === null ? null : to * MINUTE,
  });
  it.each<[string, Partial<StageRecord>]>([
    ['undone', { undone: true }],
    ['unfinished', { finishedMs: null }],
    ['no-start', { startedMs: null }],
    ['nobody-named', { people: [] }],
    ['several-people', { people: ['Ann', 'Ben'] }],
    ['several-stages-at-once', { otherEndsMs: [12 * MINUTE - 30_000] }],
    ['several-stages-at-once', { otherEndsMs: [12 * MINUTE + 30_000] }],
    ['pause-unclear', { pauses: [pause(3, null)] }],
    ['pause-unclear', { pauses: [pause(-2, 1)] }],
    ['pause-unclear', { pauses: [pause(10, 13)] }],
    ['pause-unclear', { pauses: [pause(2, 6), pause(5, 7)] }],
    ['beyond-belief', { finishedMs: 14_000 }],
    ['beyond-belief', { finishedMs: 121 * MINUTE }],
    ['beyond-belief', { startedMs: 13 * MINUTE }],
    ['beyond-belief', { startedMs: NaN }],
  ])('%s: %j', (because, change) => {
    expect(observe({ ...clean, ...change })).toEqual({ kind: 'left-out', because });
  });

  it('nothing just inside the bounds', () => {
    expect(observe({ ...clean, otherEndsMs: [12 * MINUTE - 30_001] }).kind).toBe('exact');
    expect(observe({ ...clean, finishedMs: 15_000, otherEndsMs: [] })).toEqual(exact(0.25));
    expect(observe({ ...clean, finishedMs: 120 * MINUTE })).toEqual(exact(120));
  });
});
