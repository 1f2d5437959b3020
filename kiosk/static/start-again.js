/*
 * A page that did not get so far as to show a screen, since a file of it was lost in a weak radio, has no program that could
 * mend it: this one, which needs none of the others, loads it anew, later each time.
 */
(() => {
  const KEY = 'aisle-board.startedAgain';
  const FIRST_MS = 15_000;
  const LONGEST_MS = 5 * 60_000;
  const tried = Number(sessionStorage.getItem(KEY) ?? 0);

  const look = async () => {
    if (document.querySelector('main')) return sessionStorage.removeItem(KEY);
    try {
      const hub = await fetch('/health', { cache: 'no-store' });
      if (!hub.ok) throw new Error('not yet');
      sessionStorage.setItem(KEY, String(tried + 1));
      location.reload();
    } catch {
      setTimeout(look, FIRST_MS);
    }
  };
  setTimeout(look, Math.min(FIRST_MS * 2 ** tried, LONGEST_MS));
})();
