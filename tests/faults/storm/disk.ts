/** What stands in a hub's folder, read from outside while the hub is dead or still. Reads only. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Entry } from '#core/day/ops.ts';
import { readLines } from '../../../hub/storage/line.ts';
import { segmentFrom } from '../../../hub/storage/segment.ts';
import { SNAPSHOT_NAME } from '../../../hub/storage/disk.ts';

type Snapshot = { readonly seq: number; readonly seen: readonly [id: string, outcome: { seq: number }][] };

export type OnDisk = {
  /** Sequence numbers under which each op stands: more than one means it was taken twice. */
  readonly seqs: ReadonlyMap<string, ReadonlySet<number>>;
  /** The last number there. */
  readonly seq: number;
  /** Where the snapshot stands. */
  readonly snapshotSeq: number;
  /** The hub was killed between the first and the last step of a snapshot. */
  readonly isInSnapshot: boolean;
};

export function readDisk(folder: string): OnDisk {
  const seqs = new Map<string, Set<number>>();
  const note = (id: string, seq: number): void => void seqs.set(id, (seqs.get(id) ?? new Set()).add(seq));
  const names = readdirSync(folder);
  const segments = names.filter((name) => segmentFrom(name) !== null).sort();
  // Journal files first: one that is dropped meanwhile has all its entries in the snapshot read after it.
  for (const name of segments) {
    for (const { value } of readLines(readOrNothing(join(folder, name))).lines) {
      if (Array.isArray(value)) for (const { id, seq } of value as Entry[]) note(id, seq);
    }
  }
  const snapshot = JSON.parse(readFileSync(join(folder, SNAPSHOT_NAME), 'utf8')) as Snapshot;
  for (const [id, { seq }] of snapshot.seen) note(id, seq);
  return {
    seqs,
    seq: Math.max(snapshot.seq, ...[...seqs.values()].flatMap((set) => [...set])),
    snapshotSeq: snapshot.seq,
    isInSnapshot:
      names.some((name) => name.endsWith('.new')) ||
      (segmentFrom(segments.at(-1) ?? '') ?? 0) > snapshot.seq + 1,
  };
}

function readOrNothing(path: string): Buffer {
  try {
    return readFileSync(path);
  } catch {
    return Buffer.alloc(0);
  }
}
