/** Calendar addresses: the page's side of what the hub keeps below `/feeds/`. Null or false: the hub did not do it. */
import type { FeedAsk, FeedKnown, FeedMade } from '#core/wire/feeds.ts';

const FEEDS = '/feeds/';

export async function listFeeds(): Promise<readonly FeedKnown[] | null> {
  const answer = await asked<{ feeds: readonly FeedKnown[] }>(() => fetch(FEEDS));
  return answer?.feeds ?? null;
}

export function makeFeed(ask: FeedAsk): Promise<FeedMade | null> {
  return asked<FeedMade>(() => fetch(FEEDS, { method: 'POST', body: JSON.stringify(ask) }));
}

export async function revokeFeed(id: string): Promise<boolean> {
  return fetch(`${FEEDS}${encodeURIComponent(id)}`, { method: 'DELETE' }).then(
    (answer) => answer.ok,
    () => false,
  );
}

async function asked<T>(ask: () => Promise<Response>): Promise<T | null> {
  try {
    const answer = await ask();
    return answer.ok ? ((await answer.json()) as T) : null;
  } catch {
    return null;
  }
}
