/** What a tap makes of calls for help. */
import type { Board, Day, HelpCall } from './board.ts';
import { KEPT_CALLS } from './kept.ts';
import type { OpFact } from './ops.ts';
import { withDay, type Stamp } from './steps.ts';

type HelpAsked = Extract<OpFact, { kind: 'helpAsked' }>;

type Said = HelpCall['answers'][number];

export function askHelp(board: Board, fact: HelpAsked, stamp: Stamp): Board {
  if (board.day.help.some((call) => call.id === stamp.id)) return board;
  const call: HelpCall = {
    id: stamp.id,
    horse: fact.horse,
    kind: fact.call,
    to: fact.to,
    by: stamp.by,
    at: Math.min(stamp.tappedAt, stamp.at),
    answers: [],
    ends: [],
  };
  return withDay(board, (day) => ({ ...day, help: [...day.help, call].sort(byTime).slice(-KEPT_CALLS) }));
}

/** Somebody named comes, or says that it is done with. Each is kept once a person. */
export function sayToCall(board: Board, id: string, what: 'answers' | 'ends', stamp: Stamp): Board {
  const call = board.day.help.find((one) => one.id === id);
  const { by } = stamp;
  if (!call || by === null || call[what].some((said) => said.by === by)) return board;
  const said: Said = { op: stamp.id, by, at: Math.min(stamp.tappedAt, stamp.at) };
  const all = [...call[what], said].sort((a, b) => a.at - b.at || (a.op < b.op ? -1 : 1));
  const next = { ...call, [what]: all };
  return withDay(board, (day) => ({ ...day, help: day.help.map((one) => (one === call ? next : one)) }));
}

/** The day without what op `op` asked, answered or ended. */
export function dropCall(day: Day, op: string): Day {
  const isIts = (said: Said): boolean => said.op === op;
  const hit = day.help.some((call) => call.id === op || call.answers.some(isIts) || call.ends.some(isIts));
  if (!hit) return day;
  const others = (said: readonly Said[]): Said[] => said.filter((one) => one.op !== op);
  const help = day.help
    .filter((call) => call.id !== op)
    .map((call) => ({ ...call, answers: others(call.answers), ends: others(call.ends) }));
  return { ...day, help };
}

function byTime(a: HelpCall, b: HelpCall): number {
  return a.at - b.at || (a.id < b.id ? -1 : 1);
}
