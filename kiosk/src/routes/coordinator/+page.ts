import { learn } from '../../lib/words.ts';

export const load = () => learn('desk', 'during', 'plan', 'findings', 'care', 'aisle');
