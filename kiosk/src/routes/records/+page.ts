import { learn } from '../../lib/words.ts';

export const load = () => learn('records', 'rules', 'findings');
