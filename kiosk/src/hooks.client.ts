/** Before the pages start: a tablet that hangs somewhere opens its screen at once, not by way of the page that finds it. */
import { resolve } from '$app/paths';
import { Remembered } from './lib/link/store.ts';
import { SCREEN_OF } from './lib/parts/screens.ts';

/** Called by Kit, once. */
export function init(): void {
  const place = location.pathname === resolve('/') ? new Remembered(localStorage).get('place') : null;
  if (place) history.replaceState(history.state, '', resolve(SCREEN_OF[place.role]));
}
