import { learn } from '../../lib/words.ts';

export const load = () => learn('door', 'menu', 'during', 'alerts', 'findings', 'care', 'tile');
