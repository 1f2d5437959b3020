/** Storage that forgets when the process ends: for tests and for measuring without a disk. */
import { withoutAll } from '#core/day/forget.ts';
import type { Entry } from '#core/day/ops.ts';
import type { SequenceState } from '#core/day/sequence.ts';
import type { KeptDay } from './keptDay.ts';
import { firstState, type Beginning, type Opened, type Storage } from './storage.ts';

/** What a disk would hold. Open it again to see what a restart would find. */
export class Memory {
  journal: string | null = null;
  state: SequenceState | null = null;
  dayFrom: number | null = null;
  entries: Entry[] = [];
  days: KeptDay[] = [];
}

export function openMemoryStorage(memory: Memory, first: Beginning): Storage {
  memory.journal ??= first.journal;
  const state = (memory.state ??= firstState(first.board));
  let opened: Opened = {
    journal: memory.journal,
    state,
    entries: memory.entries.filter((entry) => entry.seq > state.seq),
    dayFrom: memory.dayFrom,
    torn: null,
    trouble: null,
  };
  return {
    get opened() {
      return opened;
    },
    append: async (entries) => {
      memory.entries.push(...entries);
    },
    mend: async () => {},
    snapshot: async (next, dayFrom) => {
      memory.state = next;
      memory.dayFrom = dayFrom;
      const from = Math.min(next.seq + 1, dayFrom ?? Infinity);
      memory.entries = memory.entries.filter((entry) => entry.seq >= from);
    },
    entries: async (from, to) => memory.entries.filter(({ seq }) => seq >= from && seq <= to),
    keepDay: async (day) => {
      const isThere = memory.days.some(({ date, from }) => date === day.date && from === day.from);
      if (!isThere) memory.days.push(day);
    },
    days: async (most) => ({ days: most > 0 ? memory.days.slice(-most) : [], damaged: [] }),
    erase: async (people, run) => {
      memory.journal = run;
      memory.state = withoutAll(memory.state, people);
      memory.entries = withoutAll(memory.entries, people);
      memory.days = withoutAll(memory.days, people);
      opened = { ...withoutAll(opened, people), journal: run };
    },
    daysFolder: null,
    close: async () => {},
  };
}
