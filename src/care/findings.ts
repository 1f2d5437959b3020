/** What somebody may have seen, as it is recorded. What was seen, never what it is. */
import * as z from 'zod/mini';
import { Foot } from './feetOrder.ts';
import { CountIn15s, RefillSeconds, TemperatureF } from './vitalsRules.ts';

const onFoot = { on: z.literal('foot'), foot: Foot };

/** A finding on a foot or the leg above it. */
export const FootFinding = z.discriminatedUnion('kind', [
  z.strictObject({
    ...onFoot,
    kind: z.enum([
      'shoe-lost',
      'shoe-sprung',
      'shoe-twisted',
      'clinches-risen',
      'nail',
      'heat',
      'thrush-smell',
      'sore',
      'leg-swelling',
      'leg-cut',
    ]),
  }),
  z.strictObject({ ...onFoot, kind: z.literal('stone'), cameOut: z.boolean() }),
  z.strictObject({ ...onFoot, kind: z.literal('crack'), blood: z.boolean(), pain: z.boolean() }),
]);
export type FootFinding = z.infer<typeof FootFinding>;

export const BODY_PLACES = [
  'poll',
  'eye',
  'face',
  'mouth',
  'neck',
  'withers',
  'shoulder',
  'chest',
  'back',
  'loin',
  'girth',
  'belly',
  'flank',
  'croup',
  'hindquarters',
  'tail',
] as const;
export const BodyPlace = z.enum(BODY_PLACES);
export type BodyPlace = z.infer<typeof BodyPlace>;

export const BodyFinding = z.strictObject({
  on: z.literal('body'),
  place: BodyPlace,
  side: z.enum(['left', 'right', 'middle']),
  kind: z.enum(['rub', 'sore', 'swelling', 'cut', 'skin-patch', 'reacts-to-touch']),
});
export type BodyFinding = z.infer<typeof BodyFinding>;

/** How the horse takes being handled. */
export const MannerFinding = z.strictObject({
  on: z.literal('manner'),
  kind: z.enum(['calm', 'unsettled', 'ears-pinned', 'will-not-be-touched']),
});
export type MannerFinding = z.infer<typeof MannerFinding>;

/** How the horse walks; the grade, if any, is a qualified person's. */
export const GaitFinding = z.strictObject({
  on: z.literal('gait'),
  kind: z.enum(['uneven', 'will-not-take-weight']),
});
export type GaitFinding = z.infer<typeof GaitFinding>;

/** A sign counted or measured at rest; what it means is the vet's to say. */
const onVital = { on: z.literal('vital') };
export const VitalFinding = z.discriminatedUnion('kind', [
  z.strictObject({ ...onVital, kind: z.enum(['pulse', 'breathing']), countIn15s: CountIn15s }),
  z.strictObject({ ...onVital, kind: z.literal('temperature'), fahrenheit: TemperatureF }),
  z.strictObject({ ...onVital, kind: z.literal('refill'), seconds: RefillSeconds }),
]);
export type VitalFinding = z.infer<typeof VitalFinding>;

/** AAEP lameness grade, 0 to 5, by a qualified person. No other scale goes in here. */
export const LamenessFinding = z.strictObject({
  on: z.literal('lameness'),
  kind: z.literal('aaep'),
  grade: z.int().check(z.minimum(0), z.maximum(5)),
});
export type LamenessFinding = z.infer<typeof LamenessFinding>;

export const Finding = z.union([
  FootFinding,
  BodyFinding,
  MannerFinding,
  GaitFinding,
  VitalFinding,
  LamenessFinding,
]);
export type Finding = z.infer<typeof Finding>;

/** Where tack usually lies: bridle, saddle, pad, girth, breastplate. A barn with other tack sets its own. */
export const DEFAULT_TACK_PLACES: readonly BodyPlace[] = [
  'poll',
  'face',
  'mouth',
  'withers',
  'shoulder',
  'chest',
  'back',
  'girth',
];
