/**
 * Word to systemd that the hub is up and alive. Node has no datagram sockets of the local kind, so systemd's own
 * systemd-notify says it. Does nothing where no service manager listens.
 */
import { spawn } from 'node:child_process';

const MICROSECONDS_A_MS = 1000;
/** Half of the time allowed, as sd_watchdog_enabled(3) advises. */
const PART_OF_WATCHDOG = 0.5;

/** Says something to the service manager, e.g. `READY=1`. */
export type Notify = (words: string) => void;

export function systemdNotify(words: string): void {
  const child = spawn('systemd-notify', [words], { stdio: 'ignore' });
  // Where the command is missing the service would be restarted by its watchdog; the journal then says why.
  child.on('error', (error) => console.error(`systemd-notify: ${String(error)}`));
}

/**
 * Says that the hub is ready, then again and again that it lives: a hub that hangs comes to no timer any more, says nothing, and
 * is started anew. Answers with what to call when it ends.
 */
export function watchOver(env: NodeJS.ProcessEnv, notify: Notify = systemdNotify): () => void {
  if (!env['NOTIFY_SOCKET']) return () => {};
  notify('READY=1');
  const everyMs = (Number(env['WATCHDOG_USEC'] ?? 0) / MICROSECONDS_A_MS) * PART_OF_WATCHDOG;
  const timer = everyMs > 0 ? setInterval(() => notify('WATCHDOG=1'), everyMs) : null;
  return () => {
    if (timer) clearInterval(timer);
    notify('STOPPING=1');
  };
}
