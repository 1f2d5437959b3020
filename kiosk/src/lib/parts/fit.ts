/** Type for names of any length: the longer the name, the smaller, down to where it may take two lines. */

/** Letters that go into one line at full size, and the part of that size a longer name gets at the least. */
export type Line = { readonly letters: number; readonly least: number };

/** Share of the full size for `name`: 1 while it fits, then less in proportion, never under `least`. */
export function shareFor(name: string, { letters, least }: Line): number {
  return Math.max(least, Math.min(1, letters / Math.max(1, name.length)));
}
