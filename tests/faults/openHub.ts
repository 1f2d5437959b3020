/** A hub that lets everybody in, for tests in a process of its own that are about something else than the gate. */
import { runHub } from '../../hub/run.ts';
import { runCommandLine } from '../../hub/startError.ts';

await runCommandLine((args) => runHub(args, { open: true }));
