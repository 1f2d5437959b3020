/** The outbox against the design's rules: stored before it is sent, in order, removed only when answered. */
import { describe, expect, it } from 'vitest';
import type { Op } from '#core/day/ops.ts';
import { OPS_A_FRAME, TABLET_FRAME_BYTES } from '#core/wire/protocol.ts';
import { memoryStore, Outbox, type OutboxStore } from '../../../kiosk/src/lib/link/outbox.ts';

function tap(id: string, why = ''): Op {
  return {
    id,
    device: 'tablet',
    by: null,
    tappedAt: 1_790_000_000_000,
    fact: { kind: 'horsePulled', horse: 'gus', why, hold: 'today' },
  };
}

const idsOf = (ops: readonly Op[]): string[] => ops.map((op) => op.id);

/** A store whose writes finish when told to. */
function slowStore(): OutboxStore & { finish: () => void; kept: string[] } {
  const waiting: (() => void)[] = [];
  const kept: string[] = [];
  return {
    kept,
    finish: () => waiting.shift()?.(),
    all: async () => [],
    add: (op) =>
      new Promise((done) => {
        waiting.push(() => {
          kept.push(op.id);
          done();
        });
      }),
    remove: async () => {},
  };
}

describe('Outbox', () => {
  it('shows a tap at once but does not send it before it is stored', async () => {
    const store = slowStore();
    const box = new Outbox(store, () => {});
    const added = box.add(tap('a'));
    expect(idsOf(box.ops)).toEqual(['a']);
    expect(box.isAllStored).toBe(false);
    expect(box.takeFrame()).toEqual([]);
    store.finish();
    await added;
    expect(box.isAllStored).toBe(true);
    expect(idsOf(box.takeFrame())).toEqual(['a']);
  });

  it('holds back what comes after a tap that is not stored yet', async () => {
    const writes = new Map<string, () => void>();
    const store: OutboxStore = {
      ...memoryStore(),
      add: (op) => new Promise((done) => void writes.set(op.id, done)),
    };
    const box = new Outbox(store, () => {});
    const first = box.add(tap('a'));
    const second = box.add(tap('b'));
    writes.get('b')?.();
    await second;
    expect(box.takeFrame()).toEqual([]);
    writes.get('a')?.();
    await first;
    expect(idsOf(box.takeFrame())).toEqual(['a', 'b']);
  });

  it('sends each tap once over a connection, and again over the next, until it is answered', async () => {
    const box = new Outbox(memoryStore(), () => {});
    for (const id of ['a', 'b', 'c']) await box.add(tap(id));
    expect(idsOf(box.takeFrame())).toEqual(['a', 'b', 'c']);
    expect(box.takeFrame()).toEqual([]);
    await box.answered(['b']);
    box.connectionLost();
    expect(idsOf(box.takeFrame())).toEqual(['a', 'c']);
    expect(idsOf(box.ops)).toEqual(['a', 'c']);
  });

  it('brings back what an earlier visit left, before what was tapped since', async () => {
    const store = memoryStore();
    const earlier = new Outbox(store, () => {});
    await earlier.add(tap('a'));
    await earlier.add(tap('b'));
    await earlier.answered(['a']);
    const box = new Outbox(store, () => {});
    await box.add(tap('c'));
    await box.open();
    expect(idsOf(box.ops)).toEqual(['b', 'c']);
  });

  it('sends a tap that the tablet would not store, and says that it is not kept', async () => {
    const full: OutboxStore = { ...memoryStore(), add: () => Promise.reject(new Error('full')) };
    const box = new Outbox(full, () => {});
    await box.add(tap('a'));
    expect(box.isKept).toBe(false);
    expect(box.isAllStored).toBe(false);
    expect(idsOf(box.takeFrame())).toEqual(['a']);
  });

  it('keeps every frame within what the hub takes', async () => {
    const box = new Outbox(memoryStore(), () => {});
    const pieces = Array.from({ length: 60 }, (_, i) => `${'long-horse-name-'.repeat(4)}.${i}:coat`);
    const large = Array.from({ length: 200 }, (_, i): Op => ({
      ...tap(`large${i}`),
      fact: { kind: 'workMoved', pieces, to: null, before: null },
    }));
    const small = Array.from({ length: 500 }, (_, i) => tap(`small${i}`, 'ü'.repeat(100)));
    const many = [...large, ...small];
    for (const op of many) await box.add(op);
    const frames: Op[][] = [];
    for (let ops = box.takeFrame(); ops.length > 0; ops = box.takeFrame()) frames.push(ops);
    for (const ops of frames) {
      expect(ops.length).toBeLessThanOrEqual(OPS_A_FRAME);
      const frame = new TextEncoder().encode(JSON.stringify({ say: 'taps', ops }));
      expect(frame.length).toBeLessThanOrEqual(TABLET_FRAME_BYTES);
    }
    expect(idsOf(frames.flat())).toEqual(idsOf(many));
  });
});
