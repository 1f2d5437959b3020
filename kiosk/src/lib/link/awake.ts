/** Keeping the glass lit, where the browser allows it: never on plain http from a name. The board does not depend on it. */

export function canStayAwake(): boolean {
  return 'wakeLock' in navigator;
}

/** To be called again whenever the page is shown: a browser drops the lock with the page. */
export async function stayAwake(): Promise<void> {
  if (!canStayAwake() || document.visibilityState !== 'visible') return;
  try {
    await navigator.wakeLock.request('screen');
  } catch {
    // Low battery, or a system that will not: the tablet's own screen timeout is what is left.
  }
}
