/**
 * Findings: what was seen, never what it is, and what the barn’s rules make of it. No diagnosis, no dose; the
 * centre’s own rules, the vet and the farrier decide.
 */
import type {
  BodyFinding,
  BodyPlace,
  Finding,
  FootFinding,
  GaitFinding,
  MannerFinding,
} from '../../care/findings.ts';
import type { Foot } from '../../care/feetOrder.ts';
import { sayLameness, sayVital } from './care.ts';

export const FOOT_WORD: Record<Foot, string> = {
  LF: 'Left fore',
  LH: 'Left hind',
  RF: 'Right fore',
  RH: 'Right hind',
};

export const FOOT_KIND: Record<FootFinding['kind'], string> = {
  'shoe-lost': 'Shoe lost',
  'shoe-sprung': 'Shoe sprung',
  'shoe-twisted': 'Shoe twisted',
  'clinches-risen': 'Clinches risen',
  stone: 'Stone',
  nail: 'Nail or something in the foot',
  heat: 'Heat',
  crack: 'Crack',
  'thrush-smell': 'Bad smell',
  sore: 'Sore',
  'leg-swelling': 'Leg swollen',
  'leg-cut': 'Leg cut',
};

export const BODY_WORD: Record<BodyPlace, string> = {
  poll: 'Poll',
  eye: 'Eye',
  face: 'Face',
  mouth: 'Mouth',
  neck: 'Neck',
  withers: 'Withers',
  shoulder: 'Shoulder',
  chest: 'Chest',
  back: 'Back',
  loin: 'Loin',
  girth: 'Girth',
  belly: 'Belly',
  flank: 'Flank',
  croup: 'Croup',
  hindquarters: 'Hindquarters',
  tail: 'Tail',
};

export const BODY_KIND: Record<BodyFinding['kind'], string> = {
  rub: 'Rub',
  sore: 'Sore',
  swelling: 'Swelling',
  cut: 'Cut',
  'skin-patch': 'Skin patch',
  'reacts-to-touch': 'Reacts to touch',
};

export const MANNER_WORD: Record<MannerFinding['kind'], string> = {
  calm: 'Calm',
  unsettled: 'Unsettled',
  'ears-pinned': 'Ears pinned',
  'will-not-be-touched': 'Will not be touched',
};

export const GAIT_WORD: Record<GaitFinding['kind'], string> = {
  uneven: 'Walks unevenly',
  'will-not-take-weight': 'Will not take weight',
};

const SIDE: Record<BodyFinding['side'], string> = { left: ', left', right: ', right', middle: '' };

/** What was seen and where: `Left fore: shoe sprung`. */
export function sayFinding(finding: Finding): string {
  switch (finding.on) {
    case 'foot':
      return `${FOOT_WORD[finding.foot]}: ${sayFootKind(finding).toLowerCase()}`;
    case 'body':
      return `${BODY_WORD[finding.place]}${SIDE[finding.side]}: ${BODY_KIND[finding.kind].toLowerCase()}`;
    case 'manner':
      return MANNER_WORD[finding.kind];
    case 'gait':
      return GAIT_WORD[finding.kind];
    case 'vital':
      return sayVital(finding);
    case 'lameness':
      return sayLameness(finding.grade);
  }
}

/** What was seen, without where. */
export function sayFootKind(finding: FootFinding): string {
  switch (finding.kind) {
    case 'stone':
      return finding.cameOut ? 'Stone, came out' : 'Stone, stuck';
    case 'crack':
      if (finding.blood) return 'Crack, with blood';
      return finding.pain ? 'Crack, hurts' : 'Crack, no blood, no pain';
    case 'shoe-lost':
    case 'shoe-sprung':
    case 'shoe-twisted':
    case 'clinches-risen':
    case 'nail':
    case 'heat':
    case 'thrush-smell':
    case 'sore':
    case 'leg-swelling':
    case 'leg-cut':
      return FOOT_KIND[finding.kind];
  }
}

export const FINDINGS = {
  feetTitle: (horse: string) => `${horse}: the four feet`,
  feetDone: (horse: string) => `${horse}: what was seen on the feet`,
  order: 'In the barn’s order',
  foot: (n: number, foot: string) => `${n}. ${foot}`,
  lookAt: 'Look at',
  fine: 'Fine',
  notLooked: 'not looked at yet',
  shod: 'shod',
  bare: 'no shoe',
  sole: { frog: 'frog', sole: 'sole', wall: 'wall', clinches: 'clinches', shoe: 'shoe', leg: 'leg above' },
  allFine: 'All four fine',
  restFine: 'The others are fine',
  hold: 'Hold: feet are checked',
  holdReport: 'Hold: tell what was seen',
  holding: 'Keep holding…',
  holdAgain: 'Press again to confirm',
  stillToLook: 'Look at every foot, then hold here',
  takeOut: 'Not so: take it off',
  stoneOut: 'Stone, came out',
  stoneStuck: 'Stone, will not come out',
  crackPlain: 'Crack, no blood, no pain',
  crackPain: 'Crack, it hurts',
  crackBlood: 'Crack, with blood',
  saw: 'Something seen',
  whoSaw: 'Who saw it?',
  sawOn: (horse: string) => `${horse}: what did you see?`,
  whereOnBody: 'Tap the place',
  left: 'Left side',
  right: 'Right side',
  pickPlace: 'Tap the place on the drawing first.',
  whatThere: (place: string) => `${place}: what is it?`,
  onFoot: 'On a foot or leg',
  onBody: 'On the body',
  takesIt: 'How it takes it',
  words: 'In your words (may stay empty)',
  secondPerson: 'Ask for a second person',
  secondPersonAsked: 'A second person is asked for.',
  tell: 'Tell it',
  decide: 'The board advises. The centre’s own rules, the instructor, vet and farrier decide.',
  unread: 'Not read yet',
  readBy: (names: string) => `read by ${names}`,
  whoReads: 'Who has read it?',
  readAs: (name: string) => `Read by ${name}`,
  seenBy: (who: string, when: string) => `${who}, ${when}`,
  nobodyNamed: 'no name given',
  history: 'Findings so far',
  none: 'No finding on this horse.',
  settled: 'released since',
  pull: 'Take it off work',
  pullWho: 'Take it off work: who decides?',
  pulledNow: 'It is off work.',
  noStaff: 'Nobody of the staff is in the barn’s records yet.',
  seeAll: 'Look',
  where: 'Where the advice comes from',
} as const;
