/** `npm run faults -- [--rounds 20] [--seed 1] [--json]`: the storm, as long as wanted. Ends with 1 when anything went wrong. */
import { parseArgs } from 'node:util';
import { storm } from './storm.ts';

const { values } = parseArgs({
  options: {
    rounds: { type: 'string', default: '20' },
    seed: { type: 'string', default: '1' },
    json: { type: 'boolean', default: false },
  },
});
const result = await storm(
  Number(values.rounds),
  Number(values.seed),
  ({ rounds, lost, doubled, diverged }) => {
    if (!values.json)
      process.stderr.write(`\rround ${rounds}: ${lost} lost, ${doubled} doubled, ${diverged} diverged `);
  },
);
if (values.json) console.log(JSON.stringify(result));
else console.log(`\n${JSON.stringify(result, null, 2)}`);
process.exitCode = result.lost + result.doubled + result.diverged > 0 ? 1 : 0;
