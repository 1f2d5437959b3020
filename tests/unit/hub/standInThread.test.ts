/** The thread that looks for stand-ins: what it answers, one question after the other, and what it refuses. */
import { afterEach, beforeEach, expect, test } from 'vitest';
import { evolve } from '#core/day/evolve.ts';
import { StandInThread } from '../../../hub/standIns.ts';
import { entry, NOON, smallBoard } from '../../properties/day-arbitraries.ts';

let thread: StandInThread;
beforeEach(() => {
  thread = new StandInThread();
});
afterEach(() => thread.stop());

const pulled = evolve(
  smallBoard(),
  entry(100, { kind: 'horsePulled', horse: 'fern', why: 'shoe lost', hold: 'farrier' }, { by: 'ines' }),
);

test('two questions at once are both answered; what does not exist is said so', async () => {
  const ask = (about: Parameters<StandInThread['find']>[2]) => thread.find(pulled, NOON, about, 'en');
  const [horse, place] = await Promise.all([ask({ horse: 'fern' }), ask({ lesson: 'L1', place: 'p1' })]);
  expect(horse.found?.options[0]?.changes.map(({ horse: id }) => id)).toContain('sorrel');
  expect(place.found?.options[0]?.fact).toMatchObject({ kind: 'standInsTaken' });
  expect(await ask({ horse: 'nobody' })).toEqual({ why: { code: 'unknownHorse' }, found: null });
  expect(await ask({ lesson: 'L9', place: 'p1' })).toEqual({ why: { code: 'unknownLesson' }, found: null });
  expect(await ask({ lesson: 'L1', place: 'p9' })).toEqual({ why: { code: 'unknownPlace' }, found: null });
});

test('a horse that worked six days before is offered in the thread too for no seventh', async () => {
  const dates = ['05', '06', '07', '08', '09', '10'].map((day) => `2026-05-${day}`);
  const worked = dates.map((date) => ({ date, horses: { sorrel: { lessons: 1, minutes: 30 } } }));
  const answer = await thread.find({ ...pulled, worked }, NOON, { lesson: 'L1', place: 'p1' }, 'en');
  const offered = answer.found?.options.flatMap(({ changes }) => changes.map(({ horse }) => horse)) ?? [];
  expect(offered).not.toContain('sorrel');
});
