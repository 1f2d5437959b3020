/** The board menu, and the choices of language and light. */
export const MENU = {
  sheet: 'Day sheet',
  add: 'Add to today',
  records: 'Records',
  files: 'Files',
  paper: 'Paper',
  end: 'Day’s end',
  byStall: 'By stall',
  byUrgency: 'Most urgent first',
  unlock: 'Unlock as coordinator',
  changePlace: 'Change what this tablet shows',
  glass: 'Measure this glass',
  theme: 'Light or dark',
  themes: { clock: 'Dark at night', day: 'Always light', night: 'Always dark' },
  fullScreen: 'Fill the screen',
  language: 'Language',
  languageLater: 'The language changes the next time this page is loaded. The hub does not answer just now.',
} as const;
