import { learn } from '../../lib/words.ts';

export const load = () => learn('aisle', 'tile');
