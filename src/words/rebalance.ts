/** What a rebalance offers, in plain sentences. */
import type { Alternative, Cannot, Gain, Move, Verdict } from '../plan/rebalance/model.ts';
import { STAGE_WORK, UNPLANNED, type NameOf } from './en.ts';

/** Names for ids. `lesson` as in "the 15:00 lesson". */
export type Names = { readonly name: NameOf; readonly lesson: NameOf };

/** More moves than this are counted, not told. */
const TOLD_MOVES = 3;

/** "Give Bracken’s coat and tack to Ines: the 15:00 lesson is ready 6 minutes earlier, nobody gets late." */
export function sayAlternative({ moves, why }: Alternative, names: Names): string {
  const what = moves.length > TOLD_MOVES ? `Make ${moves.length} changes` : sayMoves(moves, names);
  const { later } = why;
  const price =
    why.gain.code === 'givenOut'
      ? ''
      : later === null
        ? ', nobody gets late'
        : `, but ${names.lesson(later.lesson)} gets ${minutes(later.minutes)} later`;
  return `${what}: ${sayGain(why.gain, names)}${price}.`;
}

/** "Give Bracken’s coat and tack to Ines and let Ada do Moss before Fern" */
export function sayMoves(moves: readonly Move[], names: Names): string {
  const parts = moves.map((move) => sayMove(move, names));
  return sentence(listed(parts));
}

function sayMove({ horse, stages, from, to, before, beforeHorse }: Move, { name }: Names): string {
  const work = `${name(horse)}’s ${listed(stages.map((stage) => STAGE_WORK[stage].toLowerCase()))}`;
  if (from !== to) return `give ${work} to ${name(to)}`;
  if (before === null || beforeHorse === null) return `let ${name(to)} do ${work} last`;
  const next = beforeHorse === horse ? 'the rest' : name(beforeHorse);
  return `let ${name(to)} do ${work} before ${next}`;
}

function sayGain(gain: Gain, { name, lesson }: Names): string {
  switch (gain.code) {
    case 'getsReady':
      return `${name(gain.horse)} gets ready, which nobody has time for now`;
    case 'lessonEarlier':
      return `${lesson(gain.lesson)} is ready ${minutes(gain.minutes)} earlier`;
    case 'lessLate':
      return `${minutes(gain.minutes)} less lateness over all horses`;
    case 'feetSooner':
      return `${name(gain.horse)}’s feet are checked ${minutes(gain.minutes)} sooner, which leaves more time for a stand-in`;
    case 'givenOut':
      return gain.pieces === 1 ? 'that is nobody’s work yet' : 'these are nobody’s work yet';
  }
}

export const VERDICT: Record<Verdict, string> = {
  nothingToDo: 'Every horse is tacked.',
  inTime: 'Every horse has time to spare. Nothing needs to move.',
  better: 'Moving work would help:',
  provenBest: 'No plan is better by a minute, whoever does what.',
  noBetterFound: 'No better plan found. There may still be one.',
};

/** Why a horse cannot be planned to its end: "Moss, tack: Nobody here is cleared for it". */
export function sayCannot({ horse, stage, why }: Cannot, { name }: Names): string {
  const reason = why === 'notToday' ? 'It is not due today' : UNPLANNED[why];
  return `${name(horse)}, ${STAGE_WORK[stage].toLowerCase()}: ${reason}`;
}

function minutes(count: number): string {
  return count === 1 ? '1 minute' : `${count} minutes`;
}

function listed(parts: readonly string[]): string {
  const [last, ...others] = parts.toReversed();
  if (last === undefined) return '';
  return others.length === 0 ? last : `${others.toReversed().join(', ')} and ${last}`;
}

function sentence(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
