/** Asks the hub what dates came to. */
import { AccountAnswer } from '#core/ledger/account.ts';
import type { DateRange } from '#core/ledger/range.ts';
import type * as z from 'zod/mini';

export type Answer = z.infer<typeof AccountAnswer>;

/** Null: the hub does not say, or says what this page cannot read. */
export async function askAccount({ from, until }: DateRange): Promise<Answer | null> {
  try {
    const answer = await fetch(`/account?${new URLSearchParams({ from, until }).toString()}`);
    if (!answer.ok) return null;
    const parsed = AccountAnswer.safeParse(await answer.json());
    return parsed.success ? parsed.data : null;
  } catch {
    return null;
  }
}
