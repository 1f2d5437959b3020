import { learn } from '../../lib/words.ts';

export const load = () => learn('setup', 'menu');
