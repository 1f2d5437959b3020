/** The board over the whole glass, without the browser's own bars. Browsers allow it only upon a tap. */

/** False on telephones and tablets of Apple's, which have their own way, and where a page may not. */
export function canFill(): boolean {
  return document.fullscreenEnabled;
}

/** Also where the screen was started so: as an app of the home screen, or by the system. */
export function isFull(): boolean {
  const isBare = matchMedia('(display-mode: fullscreen), (display-mode: standalone)').matches;
  return document.fullscreenElement !== null || isBare;
}

export async function fillScreen(): Promise<void> {
  await document.documentElement.requestFullscreen({ navigationUI: 'hide' }).catch(() => {});
}
