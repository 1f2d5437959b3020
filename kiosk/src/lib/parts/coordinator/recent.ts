/** What a recent op was, in words, from the note of how to take it back. */
import { own } from '#core/barn/basics.ts';
import { WORK_STAGES } from '#core/barn/stage.ts';
import type { Board, Day, Recent } from '#core/day/board.ts';
import { pieceParts } from '#core/day/pieces.ts';
import { isPulled } from '#core/day/preps.ts';
import { personName } from '#core/day/views/aisle.ts';
import { say } from '../../words.ts';

/** What can be taken back, newest first: without starts that ended since, of which nothing is left. */
export function toTakeBack({ recent }: Day): readonly Recent[] {
  const ended = new Set(
    recent.flatMap(({ restore }) => restore.flatMap((step) => (step.what === 'onIt' ? [step.was.op] : []))),
  );
  return recent
    .filter(({ op, restore }) => !ended.has(op) || restore.some(({ what }) => what !== 'marks'))
    .toReversed();
}

export function sayRecent(board: Board, recent: Recent): string {
  const { op } = recent;
  return (
    finished(board, op) ??
    started(board, op) ??
    found(board, op) ??
    ridden(board, op) ??
    called(board, op) ??
    ticked(board, op) ??
    (board.day.weather.some(({ id }) => id === op) ? say.WEATHER.title : null) ??
    changed(board, recent) ??
    say.RECENT.other
  );
}

function finished(board: Board, op: string): string | null {
  for (const prep of Object.values(board.day.preps)) {
    const stages = WORK_STAGES.filter((stage) => prep.marks[stage].some((mark) => mark.op === op));
    if (stages.length === 0) continue;
    const what = stages.map((stage) => say.STAGE_DONE[stage]).join(', ');
    return say.RECENT.finished(what, horseName(board, prep.horse));
  }
  return null;
}

function started({ barn, day }: Board, op: string): string | null {
  const prep = Object.values(day.preps).find((one) => one.onIt?.op === op);
  if (!prep?.onIt) return null;
  const by = personName({ barn }, prep.onIt.by);
  return say.RECENT.started(
    say.STAGE_WORK[prep.onIt.stage],
    own(barn.horses, prep.horse)?.name ?? prep.horse,
    by,
  );
}

function found(board: Board, op: string): string | null {
  const note = board.findings.find(({ id }) => id === op);
  return note ? say.RECENT.finding(horseName(board, note.horse)) : null;
}

function ridden(board: Board, op: string): string | null {
  for (const [lesson, { mounted, down, checks }] of Object.entries(board.day.rides)) {
    const name = own(board.day.lessons, lesson)?.name ?? lesson;
    const isIts = (mark: { readonly op: string }): boolean => mark.op === op;
    if (mounted.some(isIts)) return `${name}: ${say.RIDE.allUp}`;
    if (down.some(isIts)) return `${name}: ${say.RIDE.allDown}`;
    const all = Object.values(checks);
    if (all.some(({ girth }) => girth.some(isIts))) return `${name}: ${say.CHECK.girth}`;
    if (all.some(({ instructor }) => instructor.some(isIts))) return `${name}: ${say.CHECK.instructor}`;
  }
  return null;
}

function called(board: Board, op: string): string | null {
  const call = board.day.help.find(
    ({ id, answers, ends }) => id === op || [...answers, ...ends].some((said) => said.op === op),
  );
  return call ? `${say.CALL[call.kind]}: ${horseName(board, call.horse)}` : null;
}

function ticked(board: Board, op: string): string | null {
  const prep = Object.values(board.day.preps).find(({ ticks }) => ticks.some((tick) => tick.op === op));
  return prep ? say.RECENT.ticked(horseName(board, prep.horse)) : null;
}

/** The kind of change by what it put a note down for; work moved as part of something else comes last. */
function changed(board: Board, { restore }: Recent): string | null {
  for (const step of restore) {
    if (step.what === 'presence') {
      const state = own(board.day.hands, step.volunteer)?.presence.state;
      return say.RECENT.presence(personName(board, step.volunteer), state ? say.PRESENCE_WORD[state] : '');
    }
    if (step.what === 'holds') {
      const name = horseName(board, step.horse);
      return isPulled(board.barn, step.horse) ? say.RECENT.pulled(name) : say.RECENT.released(name);
    }
    if (step.what === 'lesson') {
      const name = own(board.day.lessons, step.lesson)?.name ?? step.lesson;
      return step.was === null ? say.RECENT.lessonAdded(name) : say.RECENT.lesson(name);
    }
  }
  const pieces = restore.flatMap((step) => (step.what === 'piece' ? [pieceWords(board, step.piece)] : []));
  return pieces.length > 0 ? say.RECENT.moved([...new Set(pieces)].join(', ')) : null;
}

function pieceWords(board: Board, piece: string): string {
  const parts = pieceParts(piece);
  const prep = parts ? own(board.day.preps, parts.prep) : undefined;
  return parts && prep ? `${say.STAGE_WORK[parts.stage]} ${horseName(board, prep.horse)}` : piece;
}

function horseName({ barn }: Board, horse: string): string {
  return own(barn.horses, horse)?.name ?? horse;
}
