/** For tests of what a tablet words: it speaks English, all of it, as after a page's `load`. */
import { LANGUAGES } from '#core/words/languages.ts';
import { say } from '../../../kiosk/src/lib/words.ts';

const [english] = LANGUAGES;
for (const load of Object.values(english.load)) Object.assign(say, await load());
