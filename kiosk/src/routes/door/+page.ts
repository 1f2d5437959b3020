import { learn } from '../../lib/words.ts';

export const load = () => learn('door', 'during', 'alerts', 'findings', 'care', 'tile');
