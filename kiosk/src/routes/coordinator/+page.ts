import { learn } from '../../lib/words.ts';

export const load = () =>
  learn(
    'desk',
    'menu',
    'pair',
    'setup',
    'during',
    'alerts',
    'plan',
    'findings',
    'care',
    'tile',
    'aisle',
    'sheet',
  );
