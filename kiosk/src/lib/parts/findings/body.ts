/** Where the places of a horse lie on the drawing of it from the side: cells of a grid of seven by four, head to the left. */
import type { BodyFinding, BodyPlace } from '#core/care/findings.ts';

export const CELLS: readonly { readonly place: BodyPlace; readonly column: number; readonly row: number }[] =
  [
    { place: 'poll', column: 1, row: 0 },
    { place: 'face', column: 0, row: 1 },
    { place: 'eye', column: 1, row: 1 },
    { place: 'neck', column: 2, row: 1 },
    { place: 'withers', column: 3, row: 1 },
    { place: 'back', column: 4, row: 1 },
    { place: 'loin', column: 5, row: 1 },
    { place: 'croup', column: 6, row: 1 },
    { place: 'mouth', column: 0, row: 2 },
    { place: 'chest', column: 2, row: 2 },
    { place: 'shoulder', column: 3, row: 2 },
    { place: 'girth', column: 4, row: 2 },
    { place: 'flank', column: 5, row: 2 },
    { place: 'hindquarters', column: 6, row: 2 },
    { place: 'belly', column: 4, row: 3 },
    { place: 'tail', column: 6, row: 3 },
  ];

const MIDDLE: readonly BodyPlace[] = [
  'poll',
  'withers',
  'back',
  'loin',
  'croup',
  'tail',
  'chest',
  'belly',
  'mouth',
];

/** The side a finding is put down with: what lies on the middle line has none. */
export function sideOf(place: BodyPlace, looking: 'left' | 'right'): BodyFinding['side'] {
  return MIDDLE.includes(place) ? 'middle' : looking;
}

export const BODY_KINDS: readonly BodyFinding['kind'][] = [
  'rub',
  'sore',
  'swelling',
  'cut',
  'skin-patch',
  'reacts-to-touch',
];
