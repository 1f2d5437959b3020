/** A hub that lets everybody in, for tests in a process of its own that are about something else than the gate. */
import { runHub } from '../../hub/main.ts';

await runHub(process.argv.slice(2), { open: true });
