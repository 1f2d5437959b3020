import { describe, expect, it } from 'vitest';
import { DEFAULT_SPEED, readDemoArguments } from '../../../demo/arguments.ts';
import { StartError } from '../../../hub/startError.ts';

describe('the demo’s command line', () => {
  it('has a default for everything', () => {
    expect(readDemoArguments([])).toEqual({
      port: 4610,
      data: 'data',
      host: '0.0.0.0',
      names: [],
      speed: DEFAULT_SPEED,
      seed: 1,
      date: null,
    });
  });

  it('takes what is given', () => {
    const given = ['--port', '0', '--data', 'x', '--host', '::1', '--demo-speed', '7', '--seed', '9'];
    expect(readDemoArguments([...given, '--date', '2028-02-29'])).toEqual({
      port: 0,
      data: 'x',
      host: '::1',
      names: [],
      speed: 7,
      seed: 9,
      date: '2028-02-29',
    });
  });

  it.each([
    ['--port', '70000'],
    ['--demo-speed', '0'],
    ['--demo-speed', '1001'],
    ['--demo-speed', ''],
    ['--seed', '1.5'],
    ['--date', 'tomorrow'],
    // Dates no calendar has.
    ['--date', '2026-02-30'],
    ['--date', '2027-02-29'],
    ['--colour', 'blue'],
  ])('declines %s %s in one sentence', (name, value) => {
    expect(() => readDemoArguments([name, value])).toThrow(StartError);
  });
});
