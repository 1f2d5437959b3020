/**
 * What the planner proposes, in plain sentences: moves of work, and stand-ins with what is for and against each.
 * Stand-ins carry a rider’s figures: they are for no wall. The board advises; the instructor decides who rides what.
 */
import type { Hold } from '../../barn/horse.ts';
import type { Cannot, Gain, Move, Verdict } from '../../plan/rebalance/model.ts';
import type { AdviceLevel } from '../../care/findingRules.ts';
import type { LoadCaution } from '../../care/load.ts';
import type { WorkloadOver } from '../../care/workload.ts';
import type { Against, Block, For, SideEffect, Task, Unblock } from '../../plan/standIns/model.ts';
import type { Moves, NameOf, Names } from '../names.ts';
import { counted, HOLD_WORD, span, STAGE_WORK } from './common.ts';
import { UNPLANNED } from './during.ts';

/** More moves than this are counted, not told. */
const TOLD_MOVES = 3;

/** A lesson in a sentence; `name` where the time alone does not tell it. Null: not on the board. */
export function sayLesson(lesson: { readonly time: string; readonly name: string | null } | null): string {
  if (!lesson) return 'a lesson';
  return lesson.name === null ? `the ${lesson.time} lesson` : `the ${lesson.time} lesson ${lesson.name}`;
}

/** "Give Bracken’s coat and tack to Ines: the 15:00 lesson is ready 6 minutes earlier, nobody gets late." */
export function sayAlternative({ moves, why }: Moves, names: Names): string {
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
  return counted(count, 'minute', 'minutes');
}

function listed(parts: readonly string[]): string {
  const [last, ...others] = parts.toReversed();
  if (last === undefined) return '';
  return others.length === 0 ? last : `${others.toReversed().join(', ')} and ${last}`;
}

function sentence(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

export const STAND_INS = {
  title: 'Stand-ins',
  option: (n: number) => `Option ${n}`,
  take: 'Take this option',
  none: 'No horse can stand in under the barn’s rules. Ask the instructor.',
  whyNot: 'Why not the others',
  decides: 'The board advises. The instructor decides who rides what.',
  notExact: 'There was not time to look at everything. Something better may exist.',
  readyAt: (time: string) => `ready ${time}`,
  readyUnknown: 'cannot say when it will be ready',
  change: (horse: string, instead: string | null) =>
    instead === null ? `${horse}` : `${horse} instead of ${instead}`,
  changeIn: (change: string, place: string) => `${change}: ${place}`,
  looking: 'Looking for horses that can stand in…',
  noAnswer: 'The hub does not answer. A horse can still be chosen by hand.',
  nothingToCover: 'It has no place still to come today.',
  chance: (tenths: number) => `${tenths} in 10 sure to be ready in time`,
  who: 'Who does what',
  effects: 'What else it does',
  left: (place: string) => `Nobody for ${place}`,
  taken: 'Taken. The new horse is on the aisle’s board.',
  find: 'Find stand-ins',
  byHand: 'Choose by hand',
} as const;

/** Kilograms as a scale shows them. */
function kg(weight: number): string {
  return `${Math.round(weight * 10) / 10} kg`;
}

function percent(share: number): string {
  return `${Math.round(share * 100)} %`;
}

export function sayFor(reason: For): string {
  switch (reason.code) {
    case 'approved':
      return 'On this rider’s approved list.';
    case 'same-tack':
      return `Same tack: ${reason.tack}.`;
    case 'nothing-left-to-do':
      return 'Prepared today anyway.';
    case 'free-today':
      return 'No other lesson today.';
    case 'load-fits':
      return `Load ${kg(reason.figures.totalKg)} of ${kg(reason.figures.limitKg)} allowed, tack included.`;
    case 'several-lessons':
      return `One horse for ${reason.lessons} places.`;
  }
}

export function sayAgainst(reason: Against): string {
  switch (reason.code) {
    case 'not-on-approved-list':
      return 'Not on this rider’s approved list. Ask the instructor.';
    case 'weight-unknown':
      return `No weight on record for the ${reason.of}. The approved list names the horse; ask the instructor.`;
    case 'load-caution':
      return LOAD_CAUTION[reason.caution];
    case 'other-tack':
      return `Other tack: ${reason.tack} instead of ${reason.wanted}.`;
    case 'work-left':
      return `About ${span(reason.minutes)} of preparation.`;
    case 'worked-today':
      return `${span(reason.minutes)} of lessons today.`;
    case 'finding-read':
      return `${FINDING[reason.level]} It has been read; ask the instructor.`;
    case 'tight':
      return `Only ${span(reason.spareMinutes)} to spare.`;
    case 'chance':
      return `Chance of being ready in time: ${percent(reason.chance)}.`;
    case 'ready-unknown':
      return 'Cannot say when it will be ready: nobody is free for it yet.';
    case 'moves-a-settled-place':
      return 'Changes a place that was settled.';
  }
}

const LOAD_CAUTION: Record<LoadCaution, string> = {
  'tack-weight-is-an-allowance': 'The tack has not been weighed; the barn’s allowance was used.',
  'tape-error-could-change-it': 'The horse was weighed by tape. On a scale the load might not fit.',
  'condition-thin': 'The horse is thin. Ask the instructor about the load.',
  'condition-fat': 'The horse is fat. Ask the instructor about the load.',
  'over-published-limit': 'More than the published 20 % of the horse’s weight.',
};

const FINDING: Record<AdviceLevel, string> = {
  clear: 'Nothing found.',
  'carry-on': 'A small finding today.',
  wait: 'A finding waits for the instructor.',
  'off-today': 'A finding keeps this horse off work today.',
  'call-now': 'A finding calls for a vet or farrier.',
};

export function saySideEffect(effect: SideEffect, nameOf: NameOf): string {
  switch (effect.code) {
    case 'makes-late':
      return effect.lateMinutes === null
        ? `Leaves nobody to get ${nameOf(effect.horse)} ready for ${nameOf(effect.lesson)}.`
        : `Makes ${nameOf(effect.horse)} ${span(effect.lateMinutes)} late for ${nameOf(effect.lesson)}.`;
    case 'work-not-given':
      return NOT_GIVEN[effect.why](nameOf(effect.horse));
    case 'leaves-place':
      return `One rider in ${nameOf(effect.lesson)} still has no horse.`;
  }
}

const NOT_GIVEN: Record<Extract<SideEffect, { code: 'work-not-given' }>['why'], (horse: string) => string> = {
  nobodyCleared: (horse) => `Nobody here is cleared to prepare ${horse} alone. Share it out.`,
  nobodyInTime: (horse) => `Nobody alone can have ${horse} ready in time. Share it out.`,
  later: (horse) => `${horse} can wait: give it to somebody later.`,
};

/** What a person does from now. */
export function sayTask(task: Task, nameOf: NameOf): string {
  const stages = task.stages.map((stage) => STAGE_WORK[stage].toLowerCase()).join(', ');
  return `${nameOf(task.to)} prepares ${nameOf(task.horse)}: ${stages}.`;
}

export function sayBlock(block: Block, nameOf: NameOf): string {
  switch (block.code) {
    case 'held':
      return `Pulled: ${block.kinds.map((kind: Hold['kind']) => HOLD_WORD[kind]).join(', ')}.`;
    case 'finding':
      return FINDING[block.level];
    case 'farrier-overdue':
      return `The farrier is overdue by ${counted(block.days, 'day', 'days')}; by the barn’s rule it is off.`;
    case 'no-tack':
      return 'No tack list on record.';
    case 'not-with-rider':
      return 'Not with this rider.';
    case 'asked-to-replace':
      return 'The horse to be replaced.';
    case 'over-limit':
      return `Load ${kg(block.figures.totalKg)}, tack included; ${kg(block.limitKg)} is allowed.`;
    case 'over-rider-cap':
      return `Over the barn’s limit for riders, ${kg(block.limitKg)}.`;
    case 'ask-instructor':
      return 'The board cannot say. Ask the instructor.';
    case 'same-lesson':
      return 'Already in this lesson.';
    case 'overlapping-lesson':
      return `In ${nameOf(block.lesson)} at that time.`;
    case 'stands-in':
      return `Stands in in ${nameOf(block.lesson)} at that time.`;
    case 'workload':
      return sayOver(block.over);
    case 'not-ready':
      return `Ready at least ${span(block.lateMinutes)} too late.`;
    case 'not-settled':
      return 'The board could not settle this one. Ask the instructor.';
  }
}

function sayOver({ code, figure, limit }: WorkloadOver): string {
  switch (code) {
    case 'minutes-per-day':
      return `${span(Math.round(figure))} of work today; ${span(limit)} is the barn’s limit.`;
    case 'minutes-in-a-row':
      return `${span(Math.round(figure))} without a break; ${span(limit)} is the barn’s limit.`;
    case 'lessons-per-day':
      return `${figure} lessons today; ${limit} is the barn’s limit.`;
    case 'days-in-a-row':
      return `${figure} days in a row; ${limit} is the barn’s limit.`;
    case 'days-per-week':
      return `${figure} days in seven; ${limit} is the barn’s limit.`;
  }
}

/** What would change it. */
export function sayUnblock(unblock: Unblock, nameOf: NameOf): string {
  switch (unblock.do) {
    case 'delayLesson': {
      const delay = `Start ${nameOf(unblock.lesson)} at least ${span(unblock.minutes)} later.`;
      if (unblock.clashes.length === 0) return delay;
      return `${delay} It would then run into ${unblock.clashes.map(nameOf).join(', ')}.`;
    }
    case 'lighterTack':
      return `Lighter tack would fit: ${unblock.name}, ${kg(unblock.kg)}.`;
    case 'giveUp': {
      const lessons = [...new Set(unblock.places.map((place) => nameOf(place.lesson)))].join(', ');
      return `Give its place in ${lessons} to another horse.`;
    }
    case 'release':
      return unblock.wordFrom === null
        ? 'A release by name.'
        : `A release by name, with the ${unblock.wordFrom}’s word.`;
    case 'readFindings':
      return 'The instructor reads the finding first.';
    case 'askInstructor':
      return unblock.missing === 'rider-weight'
        ? 'Put the rider’s weight on record, or ask the instructor to approve the horse.'
        : 'Weigh the horse, or ask the instructor to approve it.';
    case 'mendRecord':
      return 'A figure on record cannot be right. Put it right first.';
    case 'farrierVisit':
      return 'The farrier’s visit, put down in its care.';
    case 'addTackList':
      return 'Add a tack list for it in Records.';
    case 'freeFirst':
      return `Another horse for its place in ${nameOf(unblock.lesson)}; none was found.`;
  }
}
