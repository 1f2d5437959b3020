/** Calls for help as boards show them, and who is free and near. */
import { own } from '../../barn/basics.ts';
import { asks, isCleared, type Clearance } from '../../barn/stage.ts';
import type { Board, HelpCall } from '../board.ts';
import { openCalls } from '../help.ts';
import { nextStage } from '../preps.ts';
import { dutiesOn } from '../roles.ts';
import { currentPrep, personName } from './aisle.ts';

export type Helper = {
  readonly id: string;
  readonly name: string;
  /** From where they were last seen working to the horse; null: not known. */
  readonly metres: number | null;
};

export type HelpLine = {
  readonly id: string;
  readonly horse: string;
  readonly name: string;
  readonly stall: string;
  readonly kind: HelpCall['kind'];
  /** Name of who is called; null: whoever can. */
  readonly to: string | null;
  /** Name of who asked; null: they gave none. */
  readonly by: string | null;
  /** ms */
  readonly at: number;
  /** Names of who said they come. */
  readonly coming: readonly string[];
  /** Free now and cleared for what is next on that horse, nearest first. */
  readonly helpers: readonly Helper[];
};

/** Calls that stand at `now` (ms), oldest first; nobody coming yet before the others. */
export function helpLines(board: Board, now: number): HelpLine[] {
  return openCalls(board)
    .flatMap((call) => line(board, call, now) ?? [])
    .sort((a, b) => Math.sign(a.coming.length) - Math.sign(b.coming.length) || a.at - b.at);
}

function line(board: Board, call: HelpCall, now: number): HelpLine | null {
  const horse = own(board.barn.horses, call.horse);
  if (!horse) return null;
  const stall = own(board.barn.stalls, horse.stall);
  const prep = currentPrep(board, horse.id, now);
  const next = prep && nextStage(prep);
  return {
    id: call.id,
    horse: horse.id,
    name: horse.name,
    stall: stall?.name ?? horse.stall,
    kind: call.kind,
    to: call.to === null ? null : personName(board, call.to),
    by: call.by === null ? null : personName(board, call.by),
    at: call.at,
    coming: call.answers.map((one) => personName(board, one.by)),
    helpers: freeAndNear(
      board,
      call,
      stall?.metres ?? null,
      next ? asks(horse.experiencedFor, next) : [],
      now,
    ),
  };
}

/** Here, on nothing, not due in a lesson, and not the one who asks. */
function freeAndNear(
  board: Board,
  call: HelpCall,
  metres: number | null,
  asked: readonly Clearance[],
  now: number,
): Helper[] {
  const { barn, day } = board;
  const inLesson = new Set(
    dutiesOn(board, now).flatMap((duty) => (duty.from <= now && now < duty.until ? duty.volunteer : [])),
  );
  const busy = new Set(Object.values(day.preps).flatMap((prep) => prep.onIt?.by ?? []));
  return Object.entries(day.hands)
    .filter(([id, { presence }]) => presence.state === 'here' && id !== call.by)
    .filter(([id]) => !inLesson.has(id) && !busy.has(id))
    .flatMap(([id]) => own(barn.volunteers, id) ?? [])
    .filter(({ clearances }) => isCleared(clearances, asked))
    .map(({ id, name }) => {
      const at = lastSeen(board, id);
      return { id, name, metres: at === null || metres === null ? null : Math.abs(at - metres) };
    })
    .sort((a, b) => (a.metres ?? Infinity) - (b.metres ?? Infinity) || a.name.localeCompare(b.name, 'en'));
}

/** Metres of the stall where somebody last finished a stage; null: they have finished none. */
function lastSeen({ barn, day }: Board, person: string): number | null {
  let latest: { at: number; horse: string } | null = null;
  for (const prep of Object.values(day.preps)) {
    for (const marks of Object.values(prep.marks)) {
      for (const mark of marks) {
        if (mark.by === person && (!latest || mark.at > latest.at))
          latest = { at: mark.at, horse: prep.horse };
      }
    }
  }
  return own(barn.stalls, own(barn.horses, latest?.horse ?? '')?.stall ?? '')?.metres ?? null;
}
