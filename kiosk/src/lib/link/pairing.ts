/** How a page asks the hub to let its tablet in; the hub answers with a cookie that no page can read. */
import { SECOND_MS } from '#core/time/units.ts';

/** `wait`: too many wrong codes. `noHub`: it did not answer, or cannot write. */
export type PairOutcome =
  { readonly is: 'paired' | 'wrong' | 'noHub' } | { readonly is: 'wait'; readonly waitMs: number };

const PATIENCE_MS = 8 * SECOND_MS;

/** `code` null: this browser is at the hub itself, and the barn has no tablet yet. */
export async function pairWith(code: string | null): Promise<PairOutcome> {
  try {
    const answer = await fetch('/gate/pair', {
      method: 'POST',
      headers: { 'Content-Type': 'application/json' },
      body: JSON.stringify({ code }),
      signal: AbortSignal.timeout(PATIENCE_MS),
    });
    if (answer.status === 204) return { is: 'paired' };
    if (answer.status === 403) return { is: 'wrong' };
    if (answer.status !== 429) return { is: 'noHub' };
    return { is: 'wait', waitMs: Number(answer.headers.get('Retry-After') ?? 1) * SECOND_MS };
  } catch {
    return { is: 'noHub' };
  }
}

/** Whether this browser may be the hub's own. */
export function isAtHub(): boolean {
  return ['localhost', '127.0.0.1', '[::1]'].includes(location.hostname);
}

/** The code in the address, as a QR code brings it; null: none. It is taken out, so that it is not kept in the history. */
export function codeInAddress(): string | null {
  const found = /^#(\d{6}(?:-[\w-]{22})?)$/.exec(location.hash)?.[1] ?? null;
  if (found !== null) history.replaceState(history.state, '', location.pathname);
  return found;
}
