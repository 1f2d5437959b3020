import { learn } from '../../lib/words.ts';

export const load = () => learn('aisle', 'during', 'alerts', 'findings', 'care');
