/** Keeping the glass lit, where the browser allows it: never on plain http from a name. The board does not depend on it. */

let lock: WakeLockSentinel | null = null;
let isAsking = false;

export function canStayAwake(): boolean {
  return 'wakeLock' in navigator;
}

/** To be called again whenever the page is shown: a browser drops the lock with the page. */
export async function stayAwake(): Promise<void> {
  if (!canStayAwake() || document.visibilityState !== 'visible' || isAsking || lock?.released === false)
    return;
  isAsking = true;
  try {
    lock = await navigator.wakeLock.request('screen');
    // Dropped for another reason, as a battery that was low: asked for once more, and left at that when refused.
    lock.addEventListener('release', () => void stayAwake());
  } catch {
    // Low battery, or a system that will not: the tablet's own screen timeout is what is left.
  } finally {
    isAsking = false;
  }
}
