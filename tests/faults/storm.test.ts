/** Twenty rounds of the storm; `npm run faults -- --rounds 1000` runs as many as wanted. */
import { expect, test } from 'vitest';
import { storm } from './storm/storm.ts';

const ROUNDS = 20;
const SEED = 7;

test(
  'bad networks and power cuts on both sides: nothing lost, nothing doubled, all boards alike',
  { timeout: 300_000 },
  async () => {
    const result = await storm(ROUNDS, SEED);
    expect(result.wrongs).toEqual([]);
    expect(result).toMatchObject({ rounds: ROUNDS, lost: 0, doubled: 0, diverged: 0 });
    expect(result.acknowledged).toBe(result.ops);
    // A storm without faults would show nothing.
    for (const faults of [result.hubKills, result.tabletKills, result.cuts, result.halfOpens]) {
      expect(faults).toBeGreaterThan(2);
    }
  },
);
