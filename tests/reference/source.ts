/** Where a published check comes from. `npm test` lists every source with the checks that stand on it. */
import { beforeEach } from 'vitest';

declare module 'vitest' {
  interface TaskMeta {
    sources?: string[];
  }
}

/**
 * Given to a test, or to a group for all of its tests. What has no page to point at says `from memory` or `common practice,
 * no source`: `it('…', source('Steadman 1979'), () => …)`.
 */
export function source(...names: readonly [string, ...string[]]): { meta: { sources: string[] } } {
  return { meta: { sources: [...names] } };
}

/** For every check of a file that names none of its own. */
export function sourceOfAll(...names: readonly [string, ...string[]]): void {
  beforeEach(({ task }) => {
    task.meta.sources ??= [...names];
  });
}
