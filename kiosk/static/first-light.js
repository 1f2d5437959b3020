/*
 * Before the first picture: the look this glass had last (`look` in lib/link/store.ts), so that a dark barn is not lit up by a
 * page that is only loading.
 */
(() => {
  const root = document.documentElement;
  try {
    if (localStorage.getItem('aisle-board.look') !== '"night"') return;
    root.dataset.theme = 'night';
    // The glass itself, until there are styles.
    root.style.colorScheme = 'dark';
  } catch {
    // A browser that keeps nothing begins light.
  }
})();
