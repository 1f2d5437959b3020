/** Where the gate's record is kept: beside the journal, never in it, since tablets are sent what the journal holds. */
import { join } from 'node:path';
import { Low } from 'lowdb';
import { damaged, SealedFile } from '../storage/sealedFile.ts';
import { EMPTY_GATE, GateRecord } from './record.ts';

export const GATE_NAME = 'gate.json';

export interface GateStore {
  read(): Promise<GateRecord>;
  /** Resolves when it is on disk, whole. */
  write(record: GateRecord): Promise<void>;
}

/** In a hub's folder. `read` throws StartError for a file that is damaged. */
export function gateFile(folder: string): GateStore {
  const path = join(folder, GATE_NAME);
  const file = new SealedFile(path);
  const low = new Low<unknown>(file, null);
  return {
    read: async () => {
      await low.read();
      if (!file.raw) return EMPTY_GATE;
      const parsed = GateRecord.safeParse(low.data);
      if (!file.raw.isWhole || !parsed.success) throw damaged(path, parsed.error ?? 'checksum');
      return parsed.data;
    },
    write: async (record) => {
      low.data = record;
      await low.write();
    },
  };
}

/** Gone with the process. */
export function gateInMemory(record: GateRecord = EMPTY_GATE): GateStore {
  let kept = record;
  return {
    read: async () => kept,
    write: async (next) => {
      kept = next;
    },
  };
}
