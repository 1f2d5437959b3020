/** Views are made anew at every entry and every second. What came out the same stays the same object, so that a screen draws only what changed. */

/**
 * `now`, with every part that equals the same part of `before` taken from there: all of `before` when nothing changed.
 * For plain data: records, lists, sets of texts, texts and numbers.
 */
export function shared<T>(before: T | undefined, now: T): T;
export function shared(before: unknown, now: unknown): unknown {
  if (Object.is(before, now)) return before;
  if (Array.isArray(before) && Array.isArray(now)) {
    const next: unknown[] = now.map((value, i) => shared(before[i], value));
    return before.length === next.length && next.every((value, i) => value === before[i]) ? before : next;
  }
  if (before instanceof Set && now instanceof Set) {
    return before.size === now.size && [...now].every((value) => before.has(value)) ? before : now;
  }
  if (!isRecord(before) || !isRecord(now)) return now;
  const entries = Object.entries(now).map(([key, value]) => [key, shared(before[key], value)] as const);
  const isSame =
    entries.length === Object.keys(before).length &&
    entries.every(([key, value]) => Object.hasOwn(before, key) && value === before[key]);
  return isSame ? before : Object.fromEntries(entries);
}

/** As `shared`, for a list whose parts may change places: each is compared with the one before of its `key`. */
export function sharedBy<T>(before: readonly T[], now: readonly T[], key: (one: T) => string): readonly T[] {
  const known = new Map(before.map((one) => [key(one), one]));
  const next = now.map((one) => shared(known.get(key(one)), one));
  return before.length === next.length && next.every((one, i) => one === before[i]) ? before : next;
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && Object.getPrototypeOf(value) === Object.prototype;
}
