/** What stands in the terminal once the hub is up. */
import { renderUnicodeCompact } from 'uqr';
import type { Kept } from './gate/consoleCode.ts';

/** The addresses to open, and for a person at a terminal the first one as a QR code to hold a tablet to. */
export function greeting(name: string, here: string, lan: readonly string[], withCode: boolean): string {
  const [first, ...others] = lan;
  const lines = [`${name} is on the board.`, `  here     ${here}`];
  if (first) lines.push(`  tablets  ${first}`, ...others.map((other) => `       or  ${other}`));
  if (first && withCode) lines.push('', renderUnicodeCompact(first, { border: 2 }));
  return lines.join('\n');
}

/** A pairing code, and as a QR code the address that brings it along. */
export function codeLines({ code, address }: Kept, withCode: boolean): string {
  const line = `  code     ${code.slice(0, 3)} ${code.slice(3)}   (pairs one tablet within five minutes)`;
  if (address === null || !withCode) return line;
  return `${line}\n${renderUnicodeCompact(`${address}/pair#${code}`, { border: 2 })}`;
}

/** For a terminal at which somebody sits; null: what is printed goes elsewhere. */
export function codeOnTerminal(): ((kept: Kept) => void) | null {
  return process.stdout.isTTY ? (kept) => console.log(codeLines(kept, true)) : null;
}

/** How tablets come to trust the hub's certificate, and the number to compare on the way. */
export function trustLines([first]: readonly string[], print: string): string {
  const page = (first ?? 'https://localhost').replace('https:', 'http:');
  return `  trust    ${page}   (open once on each tablet, before the board)\n  number   ${print}`;
}
