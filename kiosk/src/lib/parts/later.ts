/** What a board does not need for its first picture is fetched after it: while the hub is there, so that it opens while it is not. */

/** The board has been drawn by then, and nobody has read it yet, in ms. */
const DRAWN_MS = 50;
const AGAIN_MS = 3000;

/** Hands what `load` brings to `take`, soon after the first picture; tries until it comes. Returns how to call it off. */
export function fetchLater<T>(load: () => Promise<T>, take: (loaded: T) => void): () => void {
  let timer = setTimeout(attempt, DRAWN_MS);
  let isWanted = true;
  function attempt(): void {
    load().then(
      (loaded) => {
        if (isWanted) take(loaded);
      },
      () => {
        if (isWanted) timer = setTimeout(attempt, AGAIN_MS);
      },
    );
  }
  return () => {
    isWanted = false;
    clearTimeout(timer);
  };
}
