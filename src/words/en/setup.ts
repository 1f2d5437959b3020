/** Where a tablet hangs and what it can do there. */
import { counted } from './common.ts';

export const HANGING = {
  question: 'Where does this tablet hang?',
  hint: 'It remembers. You can change it later from the board menu.',
  aisle: 'Aisle',
  aisleHint: 'By the stalls: which horse, what next, done.',
  door: 'Arena door',
  doorHint: 'Read from inside the arena: will every horse be ready?',
  coordinator: 'Coordinator',
  coordinatorHint: 'In your hand: who is behind, who can help.',
  allStalls: 'All stalls',
  chosenStalls: (count: number) => counted(count, 'stall', 'stalls'),
  whichStalls: 'Which stalls?',
  anyArena: 'All arenas',
  whichArena: 'Which arena?',
  howFar: 'How far away do people stand?',
  metres: (metres: number) => `${metres} m`,
  nearer: 'Nearer',
  farther: 'Farther',
  showsBoth: (metres: number) =>
    `From ${metres} m people can read the next lesson’s minutes and its word on this panel.`,
  showsMinutes: (metres: number, both: string, inches: number) =>
    `From ${metres} m this panel shows one lesson’s minutes. For its word too, come closer than ${both} m or hang a panel of at least ${inches} inches.`,
  showsNothing: (metres: number, minutes: string, inches: number) =>
    `From ${metres} m nothing on this panel can be read. Come closer than ${minutes} m or hang a panel of at least ${inches} inches.`,
  done: 'Hang it here',
  name: 'What people call this tablet',
  refused: 'The hub did not take it. Ask a coordinator to unlock this tablet first.',
} as const;

/** What a tablet can do where it is, and what it lacks: said where somebody sets it up. */
export const TABLET_CAN = {
  title: 'What this tablet can do',
  reload: 'It opens with the last board, and the board’s age, also while the hub is away.',
  awake: 'It keeps its screen on by itself.',
  full: 'It can fill the screen: “Fill the screen” in the board menu.',
  keeping: 'It keeps taps until the hub has them, also when it is switched off.',
} as const;

export const TABLET_LACKS = {
  reload:
    'On this address it cannot open the board while the hub is away. Leave this page open and do not reload it: as it is, it goes on and keeps taps.',
  notYet: 'It will open without the hub from the next visit on.',
  full: 'It cannot fill the screen by a tap. Add the board to the home screen, or use the tablet’s own kiosk or pinning setting.',
  awake: 'It cannot keep its screen on here. Set the tablet’s own screen timeout to never.',
  keeping:
    'This browser keeps no taps over a reload. Taps made while the hub is away are lost if the page is closed.',
} as const;

/** How fine this tablet's glass is, and what can be read on it from where. */
export const GLASS = {
  title: 'Measure this glass',
  why: 'So that keys are large enough for gloves, and words for the distance. Once for each tablet.',
  card: 'Lay a bank card on the outline. Change its size until the card just covers it.',
  muchSmaller: 'Much smaller',
  smaller: 'Smaller',
  larger: 'Larger',
  muchLarger: 'Much larger',
  keep: 'The card fits',
  kept: 'Kept for this tablet.',
  notYet: 'Not measured yet: the board takes a usual panel for granted.',
  check: 'Check with a tape measure',
  checkHint: 'Each bar is as long, and each letter as high, as stands beside it.',
  bar: (mm: number) => `${mm} mm`,
  letter: (mm: string, metres: number, arcMinutes: string) =>
    `${mm} mm: for ${metres} m (${arcMinutes} minutes of arc)`,
  done: 'Back to the board',
} as const;

export const GLASS_PAGE = 'Measure this glass · Aisle Board';
