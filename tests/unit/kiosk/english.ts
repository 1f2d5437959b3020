/** For tests of what a tablet words: it speaks English, all of it, as after a page's `load`. */
import { ENGLISH } from '#core/words/en/all.ts';
import { say } from '../../../kiosk/src/lib/words.ts';

for (const load of Object.values(ENGLISH)) Object.assign(say, await load());
