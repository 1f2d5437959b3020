/** A lane's pieces as they are drawn: those of one prep that follow each other make one block with one name. */
import type { Lane, LanePiece } from '#core/day/views/coordinator.ts';
import type { Axis } from './axis.ts';

export type Timed = LanePiece & { readonly start: number; readonly end: number };
export type Group = {
  readonly prep: string;
  readonly horseName: string;
  readonly pieces: readonly Timed[];
  readonly start: number;
  readonly end: number;
  /** From when until when its name has room above it: from its start to the next block's, or for the last one to the axis' end. */
  readonly nameFrom: number;
  readonly room: number;
  /** Of its last piece; null: not known, or off the axis. */
  readonly neededBy: number | null;
  readonly isLate: boolean;
  /** Name of who is expected to do it instead; null: whose lane it is on. */
  readonly elsewhere: string | null;
};

/** A block nearer to the axis' end than this part of the axis leaves little room after its start: its name may begin before it. */
const NEAR_THE_END = 0.2;

export function groupsOf(lane: Lane, axis: Axis): Group[] {
  const timed = lane.pieces
    .filter((piece): piece is Timed => piece.start !== null && piece.end !== null)
    .filter((piece) => piece.start < axis.until && piece.end > axis.from)
    .sort((a, b) => a.start - b.start);
  const runs: Timed[][] = [];
  for (const piece of timed) {
    const run = runs.at(-1);
    const last = run?.at(-1);
    if (last?.prep === piece.prep && (last.elsewhere === null) === (piece.elsewhere === null))
      run?.push(piece);
    else runs.push([piece]);
  }
  const starts = runs.flatMap(([first]) => first?.start ?? []);
  const groups = runs.flatMap((pieces) => {
    const [first] = pieces;
    const last = pieces.at(-1);
    if (!first || !last) return [];
    const isLate = pieces.some((piece) => piece.lateMs > 0);
    // Of work after a lesson there is no spare to draw once its time has passed.
    const hasSpare = last.neededBy !== null && (isLate || last.neededBy >= last.end);
    const isOn = hasSpare && last.neededBy > axis.from && last.neededBy <= axis.until;
    return {
      prep: first.prep,
      horseName: first.horseName,
      pieces,
      start: first.start,
      end: last.end,
      nameFrom: first.start,
      room: Math.min(axis.until, ...starts.filter((start) => start > first.start)),
      neededBy: isOn ? last.neededBy : null,
      isLate,
      elsewhere: first.elsewhere,
    };
  });
  return withRoomBefore(groups, axis);
}

/** The last block's name, near the axis' end, shares the time before it with the name of the block before. */
function withRoomBefore(groups: readonly Group[], { from, until }: Axis): Group[] {
  const inOrder = groups.toSorted((a, b) => a.start - b.start);
  const last = inOrder.pop();
  if (!last || until - last.start > NEAR_THE_END * (until - from)) return [...groups];
  const ended = Math.max(from, ...inOrder.map(({ end }) => end));
  const nameFrom = Math.min(last.start, (ended + last.start) / 2);
  return [
    ...inOrder.map((group) => ({ ...group, room: Math.min(group.room, Math.max(group.end, nameFrom)) })),
    { ...last, nameFrom: inOrder.length === 0 ? Math.min(from, last.start) : nameFrom },
  ];
}
