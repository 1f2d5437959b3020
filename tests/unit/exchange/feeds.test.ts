/** What whoever has a calendar's address may read: no rider unless it was chosen, and of people first names only. */
import { expect, test } from 'vitest';
import { lessonFeed, personFeed } from '#core/exchange/calendar/feeds.ts';
import { NOON, smallBoard } from '../../properties/day-arbitraries.ts';

const board = smallBoard();
const words = {
  leading: (horse: string, lesson: string) => `Leading ${horse}: ${lesson}`,
  sideWalking: (horse: string, lesson: string) => `Beside ${horse}: ${lesson}`,
  shift: 'Shift',
};

test('riders are named only where it was chosen', () => {
  const [first] = lessonFeed(board, NOON, false);
  expect(first?.description).toBe('Instructor: Ines\nHorse: fern\nHorse: moss');
  expect(JSON.stringify(lessonFeed(board, NOON, false))).not.toContain('Robin');
  expect(lessonFeed(board, NOON, true)[0]?.description).toContain('Rider: Robin; Horse: fern');
});

test('a person’s feed has their roles and no rider', () => {
  const lesson = board.day.lessons['L1']!;
  const places = lesson.places.map((place) => (place.id === 'p1' ? { ...place, leader: 'ada' } : place));
  const led = { ...board, day: { ...board.day, lessons: { L1: { ...lesson, places } } } };
  const events = personFeed(led, 'ada', NOON, words);
  expect(events.map(({ summary, start }) => [summary, start])).toEqual([
    ['Leading fern: First', lesson.start],
  ]);
  expect(personFeed(led, 'ben', NOON, words)).toEqual([]);
});
