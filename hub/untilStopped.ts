/** Ctrl-C and SIGTERM. */

/**
 * Calls `close` once when the process is asked to end, then ends it with code 0, or 1 when closing failed. A terminal's
 * Ctrl-C can arrive twice, from the terminal and from the launcher; the second changes nothing.
 */
export function closeWhenStopped(close: () => Promise<void>): void {
  let closing = false;
  const stop = (): void => {
    if (closing) return;
    closing = true;
    close().then(
      () => process.exit(0),
      (error: unknown) => {
        console.error(`Could not end cleanly: ${String(error)}`);
        process.exit(1);
      },
    );
  };
  process.on('SIGINT', stop).on('SIGTERM', stop);
}
