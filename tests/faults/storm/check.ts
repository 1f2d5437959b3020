/** What must hold: while the hub is dead, and when everything has come through. Anything else is told in words. */
import { isDeepStrictEqual } from 'node:util';
import type { Board } from '#core/day/board.ts';
import type { TabletPlace } from '#core/day/places.ts';
import { redactBoard } from '#core/day/redact.ts';
import { Client } from '../client.ts';
import { readDisk, type OnDisk } from './disk.ts';
import { keptIn } from './outboxFile.ts';
import type { Ledger, Tablet } from './tablet.ts';

export type Wrongs = { readonly lost: string[]; readonly doubled: string[]; readonly diverged: string[] };

/**
 * The folder of a hub that is not writing: every answered op stands in it once, under the number it was answered with;
 * every other op that was kept stands in it once at most, and is still in its tablet's outbox.
 */
export function checkDisk(
  folder: string,
  ledger: Ledger,
  tablets: readonly Tablet[],
  wrongs: Wrongs,
): OnDisk {
  const disk = readDisk(folder);
  for (const [id, seqs] of disk.seqs)
    if (seqs.size > 1) wrongs.doubled.push(`${id} stands at ${[...seqs].join(', ')}`);
  for (const [id, seq] of ledger.answered) {
    if (!disk.seqs.get(id)?.has(seq)) wrongs.lost.push(`${id}, answered as ${seq}, is not on disk under it`);
  }
  const outboxes = new Set(tablets.flatMap((tablet) => keptIn(tablet.outboxPath).map(({ id }) => id)));
  for (const id of ledger.kept) {
    if (!ledger.answered.has(id) && !outboxes.has(id))
      wrongs.lost.push(`${id} is in no outbox, and not answered`);
  }
  const numbers = new Set([...disk.seqs.values()].flatMap((seqs) => [...seqs]));
  if (numbers.size !== disk.seq)
    wrongs.lost.push(`${disk.seq - numbers.size} of ${disk.seq} numbers are missing`);
  return disk;
}

const PLACES: readonly TabletPlace[] = [
  { role: 'coordinator' },
  { role: 'aisle', stalls: [] },
  { role: 'door', arena: null, metres: 8 },
];

/** All tablets have drained: they, the hub and somebody who comes in new agree, each as far as its place may know. */
export async function checkBoards(port: number, tablets: readonly Tablet[], wrongs: Wrongs): Promise<void> {
  let whole: { board: Board; seq: number } | null = null;
  for (const place of PLACES) {
    const { client, welcome } = await Client.join(port, place, `fresh-${place.role}`);
    client.close();
    if (!welcome.board) throw new Error('a fresh reader is given a board');
    whole ??= { board: welcome.board, seq: welcome.seq };
    same(`a fresh ${place.role}`, place, welcome.board, welcome.seq, whole, wrongs);
  }
  for (const { parts, known } of tablets) {
    if (whole && known) same(parts.device, parts.place, known.board, known.seq, whole, wrongs);
  }
}

function same(
  who: string,
  place: TabletPlace,
  board: Board,
  seq: number,
  whole: { board: Board; seq: number },
  wrongs: Wrongs,
): void {
  if (seq !== whole.seq) wrongs.diverged.push(`${who} stands at ${seq}, the hub at ${whole.seq}`);
  else if (!isDeepStrictEqual(board, redactBoard(whole.board, place.role))) {
    wrongs.diverged.push(`${who} shows another board at ${seq}`);
  }
}
