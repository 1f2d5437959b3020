/** A hub in a process of its own with its gate shut, whatever the command line of today does. */
import { runHub } from '../../hub/run.ts';

await runHub(process.argv.slice(2), { open: false });
