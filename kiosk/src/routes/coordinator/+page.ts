import { learn } from '../../lib/words.ts';

export const load = () => learn('desk', 'pair', 'setup', 'during', 'plan', 'findings', 'care', 'aisle');
