/**
 * Where letters are large for the glass (a browser's large text or zoom), a screen no longer fits it: it is laid out in the
 * length of a page and moves up and down, rather than cut words (WCAG 2.2, 1.4.4 and 1.4.10). In em, so that larger letters
 * count as a smaller glass. Styles ask for `[data-long]` on the root.
 */
import { MediaQuery } from 'svelte/reactivity';

export const isLong = new MediaQuery('(max-width: 36em) or (max-height: 32em)');
