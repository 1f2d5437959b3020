import { learn } from '../../lib/words.ts';

export const load = () =>
  learn('desk', 'pair', 'setup', 'door', 'during', 'plan', 'findings', 'care', 'aisle');
