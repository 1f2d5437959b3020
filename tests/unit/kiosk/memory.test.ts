/** Ids against the domain's own shape, and what a tablet remembers against a shelf that lies. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Id } from '#core/barn/fields.ts';
import { demoBoard } from '../../../demo/day.ts';
import { newId } from '../../../kiosk/src/lib/link/ids.ts';
import { Remembered, type LastBoard, type Shelf } from '../../../kiosk/src/lib/link/store.ts';

describe('newId', () => {
  it('is an id whatever the random bytes are', () => {
    fc.assert(
      fc.property(fc.uint8Array({ minLength: 20, maxLength: 20 }), (bytes) => {
        expect(Id.safeParse(newId(() => bytes)).success).toBe(true);
      }),
    );
  });
  it('uses five bits of every byte', () => {
    const ids = new Set(Array.from({ length: 32 }, (_, byte) => newId((n) => new Uint8Array(n).fill(byte))));
    expect(ids.size).toBe(32);
  });
  it('does not come twice in ten thousand', () => {
    expect(new Set(Array.from({ length: 10_000 }, () => newId())).size).toBe(10_000);
  });
});

function shelf(entries: Record<string, string> = {}): Shelf & { entries: Map<string, string> } {
  const map = new Map(Object.entries(entries));
  return {
    entries: map,
    getItem: (key) => map.get(key) ?? null,
    setItem: (key, value) => void map.set(key, value),
    removeItem: (key) => void map.delete(key),
  };
}

describe('Remembered', () => {
  it('gives back the last board as it was put by', () => {
    const last: LastBoard = {
      build: 'b1',
      role: 'aisle',
      journal: 'j1',
      landed: ['tap1'],
      seq: 12,
      board: demoBoard('2026-05-12'),
      forecast: null,
      clock: { hub: 1_790_000_000_000, barn: 1_778_600_000_000, rate: 6 },
      demo: true,
      hubMinusWall: -3.5,
      heardAt: 1_790_000_000_000,
    };
    const remembered = new Remembered(shelf());
    expect(remembered.set('last', last)).toBe(true);
    expect(remembered.get('last')).toEqual(last);
    remembered.forget('last');
    expect(remembered.get('last')).toBeNull();
  });

  it('is null for anything that is not what was put by', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.json()), (text) => {
        const remembered = new Remembered(shelf({ 'aisle-board.last': text, 'aisle-board.place': text }));
        expect(remembered.get('last')).toBeNull();
        expect(remembered.get('place')).toBeNull();
      }),
    );
  });

  it('does not fall over a shelf that throws', () => {
    const refuse = (): never => {
      throw new Error('switched off');
    };
    const remembered = new Remembered({ getItem: refuse, setItem: refuse, removeItem: refuse });
    expect(remembered.get('device')).toBeNull();
    expect(remembered.set('device', 'abc')).toBe(false);
    remembered.forget('device');
  });
});
