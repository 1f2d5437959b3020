/** Why the hub cannot start, as one plain sentence or two for the person at the terminal. */
export class StartError extends Error {
  override readonly name = 'StartError';
}

/** The system's short name for what went wrong, e.g. `EACCES`; empty when there is none. */
export function codeOf(error: unknown): string {
  return error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : '';
}

/** Runs a command's `main`; a StartError is said to the person at the terminal, without a trace, and ends it with code 1. */
export async function runCommandLine(main: (args: readonly string[]) => Promise<void>): Promise<void> {
  try {
    await main(process.argv.slice(2));
  } catch (error) {
    if (!(error instanceof StartError)) throw error;
    console.error(error.message);
    process.exitCode = 1;
  }
}
