import { learn } from '../../lib/words.ts';

export const load = () => learn('desk', 'plan', 'findings', 'care', 'aisle');
