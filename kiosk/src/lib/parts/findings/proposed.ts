/** A pull as the findings propose it: a person may choose otherwise. */
import type { Hold } from '#core/barn/horse.ts';
import type { Board } from '#core/day/board.ts';
import type { OpFact } from '#core/day/ops.ts';
import { adviceFor, HOLD_OF, openFindings, tellingFindings } from '#core/day/findings.ts';
import { say } from '../../words.ts';

/** As the record allows. */
const MOST_SIGNS = 400;

/** A what-if takes twenty facts, up to two pulls among them. */
const MOST_READ = 18;

export type Proposed = {
  readonly why: string;
  /** One, or a vet's and a farrier's together. */
  readonly holds: readonly Hold['kind'][];
  /** Findings whoever pulls the horse has read with it. */
  readonly unread: readonly string[];
};

/** Null: nothing was found that asks to take the horse off work. */
export function proposedPull(board: Board, horse: string): Proposed | null {
  const asked = (adviceFor(board, horse)?.holds ?? []).map((hold) => HOLD_OF[hold]);
  if (asked.length === 0) return null;
  const seen = tellingFindings(board, horse).map(({ finding }) => say.sayFinding(finding));
  const unread = openFindings(board, horse).filter(({ read }) => read.length === 0);
  return {
    unread: unread.map(({ id }) => id).slice(-MOST_READ),
    why: `${seen.join('. ')}.`.slice(0, MOST_SIGNS),
    holds: both(asked) ? ['vet', 'farrier'] : asked.slice(0, 1),
  };
}

/** The holds once `kind` was tapped: vet and farrier may both hold a horse, the others stand alone; one always stays. */
export function withHold(holds: readonly Hold['kind'][], kind: Hold['kind']): readonly Hold['kind'][] {
  if (kind === 'today' || kind === 'instructor') return [kind];
  const words = holds.filter((one) => one === 'vet' || one === 'farrier');
  if (!words.includes(kind)) return kind === 'vet' ? ['vet', ...words] : [...words, 'farrier'];
  return words.length > 1 ? words.filter((one) => one !== kind) : words;
}

/** The facts of a pull with these holds: one a hold, so that each is lifted by its own word. */
export function pullFacts(
  horse: string,
  why: string,
  holds: readonly Hold['kind'][],
): Extract<OpFact, { kind: 'horsePulled' }>[] {
  return holds.map((hold) => ({ kind: 'horsePulled', horse, why, hold }));
}

function both(holds: readonly Hold['kind'][]): boolean {
  return holds.includes('vet') && holds.includes('farrier');
}
