/** Who gives way when there is no room: the project's own demand. */
import { expect, test } from 'vitest';
import { Pool } from '../../../hub/gate/pool.ts';

test('whoever has most gives way first, the oldest of theirs; one newcomer is never put out by a crowd', () => {
  const ended: string[] = [];
  const pool = new Pool<string>(10, 6, (one) => ended.push(one));
  pool.add('good', 'home');
  for (let i = 0; i < 5; i += 1) pool.add(`a${i}`, 'a');
  for (let i = 0; i < 4; i += 1) pool.add(`b${i}`, 'b');
  expect(ended).toEqual([]);
  pool.add('b4', 'b');
  expect(ended).toEqual(['a0']);
  for (let i = 5; i < 30; i += 1) pool.add(`b${i}`, 'b');
  expect(ended).not.toContain('good');
  pool.add('late', 'elsewhere');
  expect(ended).not.toContain('late');
});

test('one address beyond its share puts out its own oldest', () => {
  const ended: string[] = [];
  const pool = new Pool<string>(100, 3, (one) => ended.push(one));
  for (const one of ['a', 'b', 'c', 'd', 'e']) pool.add(one, 'x');
  expect(ended).toEqual(['a', 'b']);
});

test('what is gone or known takes no room', () => {
  const ended: string[] = [];
  const pool = new Pool<string>(2, 2, (one) => ended.push(one));
  pool.add('a', 'x');
  pool.add('b', 'y');
  pool.remove('a', 'x');
  pool.remove('a', 'x');
  pool.add('c', 'z');
  expect(ended).toEqual([]);
});
