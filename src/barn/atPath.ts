/** One value of plain data, by the names that lead to it. */

/** The value at `path` (dots between names); undefined: nothing there. */
export function valueAt(draft: unknown, path: string): unknown {
  return path.split('.').reduce<unknown>((value, name) => {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, name)) return undefined;
    return (value as Record<string, unknown>)[name];
  }, draft);
}

/** A copy with the value at `path` set; undefined takes it out. */
export function withValue<T>(draft: T, path: string, value: unknown): T {
  const [name = '', ...rest] = path.split('.');
  if (Array.isArray(draft)) {
    const next = rest.length > 0 ? withValue(draft[Number(name)], rest.join('.'), value) : value;
    return draft.with(Number(name), next) as T;
  }
  const copy: Record<string, unknown> = { ...(draft as Record<string, unknown> | null) };
  const next = rest.length > 0 ? withValue(copy[name] ?? {}, rest.join('.'), value) : value;
  if (next === undefined) delete copy[name];
  else copy[name] = next;
  return copy as T;
}
