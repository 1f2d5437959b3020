/** What a command is about to do, line by line, and whether the person at the terminal wants it. */
import { createInterface } from 'node:readline/promises';

/** One thing a command does: what is said of it, and the doing. */
export type Step = { readonly says: string; readonly run: () => Promise<void> };

/** Prints the steps and asks; `true` for yes. Without a terminal nobody can say yes. */
export async function isWanted(steps: readonly Step[], isYes: boolean): Promise<boolean> {
  console.log('This will:');
  steps.forEach(({ says }, i) => console.log(`  ${i + 1}. ${says}`));
  if (isYes) return true;
  if (!process.stdin.isTTY) {
    console.log('Nothing was done: say --yes to do it without being asked.');
    return false;
  }
  const terminal = createInterface({ input: process.stdin, output: process.stdout });
  const answer = await terminal.question('Go on? (yes/no) ');
  terminal.close();
  return /^y(es)?$/i.test(answer.trim());
}
