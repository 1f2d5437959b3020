/** Storage that forgets when the process ends: for tests and for measuring without a disk. */
import type { Entry } from '#core/day/ops.ts';
import type { SequenceState } from '#core/day/sequence.ts';
import { firstState, type Beginning, type Opened, type Storage } from './storage.ts';

/** What a disk would hold. Open it again to see what a restart would find. */
export class Memory {
  journal: string | null = null;
  state: SequenceState | null = null;
  entries: Entry[] = [];
}

export function openMemoryStorage(memory: Memory, first: Beginning): Storage {
  memory.journal ??= first.journal;
  const state = (memory.state ??= firstState(first.board));
  const opened: Opened = {
    journal: memory.journal,
    state,
    entries: memory.entries.filter((entry) => entry.seq > state.seq),
    torn: null,
  };
  return {
    opened,
    append: async (entries) => {
      memory.entries.push(...entries);
    },
    snapshot: async (state) => {
      memory.state = state;
      memory.entries = memory.entries.filter((entry) => entry.seq > state.seq);
    },
    close: async () => {},
  };
}
