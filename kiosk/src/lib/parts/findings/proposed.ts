/** A pull as the findings propose it: a person may choose otherwise. */
import type { Hold } from '#core/barn/horse.ts';
import type { Board } from '#core/day/board.ts';
import { adviceFor, HOLD_OF, openFindings } from '#core/day/findings.ts';
import { say } from '../../words.ts';

/** As the record allows. */
const MOST_SIGNS = 400;

/** A what-if takes twenty facts, the pull among them. */
const MOST_READ = 19;

export type Proposed = {
  readonly why: string;
  readonly hold: Hold['kind'];
  /** Findings whoever pulls the horse has read with it. */
  readonly unread: readonly string[];
};

/** Null: nothing was found that asks to take the horse off work. */
export function proposedPull(board: Board, horse: string): Proposed | null {
  const hold = adviceFor(board, horse)?.holds[0];
  if (!hold) return null;
  const seen = openFindings(board, horse)
    .filter(({ finding }) => finding.kind !== 'calm')
    .map(({ finding }) => say.sayFinding(finding));
  const unread = openFindings(board, horse).filter(({ read }) => read.length === 0);
  return {
    unread: unread.map(({ id }) => id).slice(-MOST_READ),
    why: `${seen.join('. ')}.`.slice(0, MOST_SIGNS),
    hold: HOLD_OF[hold],
  };
}
