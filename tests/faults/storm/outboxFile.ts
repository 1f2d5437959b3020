/** An outbox kept in a file, one line a change, as a tablet keeps its own in the browser's database. */
import { appendFileSync, existsSync, readFileSync } from 'node:fs';
import { Op } from '#core/day/ops.ts';
import type { OutboxStore } from '../../../kiosk/src/lib/link/outbox.ts';

type Line = { readonly add: Op } | { readonly remove: readonly string[] };

/** What a tablet that is switched on again finds. */
export function keptIn(path: string): Op[] {
  const ops = new Map<string, Op>();
  if (!existsSync(path)) return [];
  for (const text of readFileSync(path, 'utf8').split('\n')) {
    if (text === '') continue;
    const line = JSON.parse(text) as Line;
    if ('add' in line) ops.set(line.add.id, Op.parse(line.add));
    else for (const id of line.remove) ops.delete(id);
  }
  return [...ops.values()];
}

/**
 * The store of one life of a tablet: each write takes a turn before and after it, so that a tablet can be switched off
 * before it, and after it without knowing. `isOn` false: nothing is written any more, and nobody hears of it.
 */
export function outboxFile(path: string, isOn: () => boolean): OutboxStore {
  const turn = (): Promise<void> => new Promise((done) => setImmediate(done));
  const write = async (line: Line): Promise<void> => {
    await turn();
    if (isOn()) appendFileSync(path, `${JSON.stringify(line)}\n`);
    await turn();
    if (!isOn()) await new Promise(() => {});
  };
  return {
    all: async () => keptIn(path),
    add: (op) => write({ add: op }),
    remove: (ids) => write({ remove: ids }),
  };
}
