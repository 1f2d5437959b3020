/** The thread that works out accounts: dates in, what they came to out, as the text that goes to the tablet. */
import { parentPort } from 'node:worker_threads';
import type { Account } from '#core/ledger/account.ts';
import { accountOfDay } from '#core/ledger/day.ts';
import { workedBefore } from '#core/ledger/range.ts';
import { correctionsIn } from '#core/ledger/record.ts';
import { together } from '#core/ledger/together.ts';
import type { AccountAnswer, AccountAsk } from './accounts.ts';
import { PastDays } from './pastDays.ts';

const past = new PastDays();

parentPort?.on('message', (ask: AccountAsk) => {
  void answer(ask)
    .catch((error: unknown): AccountAnswer => ({
      failure: error instanceof Error ? (error.stack ?? error.message) : String(error),
    }))
    .then((said) => parentPort?.postMessage(said));
});

async function answer({ range, board, today, now, at }: AccountAsk): Promise<AccountAnswer> {
  const { barn, day } = board;
  const newer = correctionsIn(today);
  const { accounts, damaged, workedOn } = await past.find(at, range, barn, newer);
  const { date } = day;
  const isAsked = date !== null && date >= range.from && date <= range.until;
  const open: Account[] = isAsked
    ? [
        accountOfDay(
          { date, day, entries: today, rules: barn.rules, now },
          { barn, corrections: newer, workedBefore: workedBefore(date, workedOn) },
        ),
      ]
    : [];
  return { text: JSON.stringify({ account: together([...accounts, ...open]), damaged }) };
}
