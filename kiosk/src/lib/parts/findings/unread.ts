/** How findings nobody has read are shown: how strongly, and in which words. */
import type { Advice } from '#core/care/advise.ts';
import type { UnreadHorse } from '#core/day/views/findings.ts';
import { say } from '../../words.ts';

/** It takes the horse off, or calls somebody. */
export function isStrong({ level }: Pick<Advice, 'level'>): boolean {
  return level === 'off-today' || level === 'call-now';
}

/** What was seen, then the words that came with it. */
export function saidOf({ unread }: UnreadHorse): string {
  return [
    ...unread.map(({ finding }) => say.sayFinding(finding)),
    ...unread.flatMap(({ words }) => (words === '' ? [] : words)),
  ].join(' · ');
}
