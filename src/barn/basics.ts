/** Reading and changing records by key. */

/**
 * The entry of `record` under `key`, or undefined. Keys arrive from other machines, so `constructor` and the like
 * must not be found on the prototype.
 */
export function own<T>(record: Readonly<Record<string, T>>, key: string): T | undefined {
  return Object.hasOwn(record, key) ? record[key] : undefined;
}

/** A copy of `record` with `key` set to `value`. */
export function put<T>(record: Readonly<Record<string, T>>, key: string, value: T): Record<string, T> {
  return { ...record, [key]: value };
}

/** A copy of `record` without `key`; the same reference when there is no such key. */
export function without<T>(record: Record<string, T>, key: string): Record<string, T> {
  if (!Object.hasOwn(record, key)) return record;
  const { [key]: _gone, ...rest } = record;
  return rest;
}
