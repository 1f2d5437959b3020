/** The outbox in this browser, as far as it is known before the program that keeps taps has come. */
import { KEPT_IN } from './outbox.ts';
import type { TapPostParts } from './tapPost.ts';

export function browserPostParts(): TapPostParts {
  return {
    keeping: async () => (await import('./keeping.ts')).openKeeping(),
    channel: 'BroadcastChannel' in window ? new BroadcastChannel('aisle-board.outbox') : null,
  };
}

/** Whether the outbox holds taps of an earlier visit or of another tab: asked without the program that opens it. Never rejects. */
export async function keepsTaps(): Promise<boolean> {
  const answered = <T>(asked: IDBRequest<T>): Promise<T> =>
    new Promise((done, fail) => {
      asked.onsuccess = () => done(asked.result);
      asked.onerror = () => fail(new Error('no answer'));
    });
  try {
    const open = indexedDB.open(KEPT_IN.database);
    // There was none: making one is left to whoever keeps taps.
    open.onupgradeneeded = () => open.transaction?.abort();
    const db = await answered(open);
    const counted = answered(db.transaction(KEPT_IN.table).objectStore(KEPT_IN.table).count());
    db.close();
    return (await counted) > 0;
  } catch {
    return false;
  }
}
