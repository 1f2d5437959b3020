/** A hub that lets everybody in, for tests in a process of its own that are about something else than the gate. */
import { runHub } from '../../hub/run.ts';

await runHub(process.argv.slice(2), { open: true });
