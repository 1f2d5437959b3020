/** Why the hub cannot start, as one plain sentence or two for the person at the terminal. */
export class StartError extends Error {
  override readonly name = 'StartError';
}

/** The system's short name for what went wrong, e.g. `EACCES`; empty when there is none. */
export function codeOf(error: unknown): string {
  return error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : '';
}
