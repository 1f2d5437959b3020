/** Does this rider, with this tack, fit this horse's back. Figures for the instructor, one word for the aisle. */
import * as z from 'zod/mini';
import { weighed, type BodyWeightRules, type HorseWeight } from './bodyWeight.ts';
import { conditionFlag, type ConditionRules, type HennekeScore } from './condition.ts';
import { badFigure, cannotSay, type BadFigure, type CannotSay } from './figures.ts';

/** The study's authors advise against more than this, tack included. Powell et al., J Equine Vet Sci 2008. */
const PUBLISHED_LIMIT_PERCENT = 20;

const Percent = z.number().check(z.minimum(5), z.maximum(25));

/** A limit on rider plus tack, against the horse's weight. */
export const LoadLimit = z.discriminatedUnion('of', [
  z.object({ of: z.literal('percent'), percent: Percent }),
  z.object({ of: z.literal('sixth') }),
]);
export type LoadLimit = z.infer<typeof LoadLimit>;

/** A limit for one horse alone, rider plus tack. It can only lower the barn's. */
export const HorseLoadLimit = z.discriminatedUnion('of', [
  z.object({ of: z.literal('percent'), percent: Percent }),
  z.object({ of: z.literal('kg'), kg: z.number().check(z.minimum(0), z.maximum(300)) }),
]);
export type HorseLoadLimit = z.infer<typeof HorseLoadLimit>;

const RiderCapKg = z._default(z.nullable(z.number().check(z.minimum(10), z.maximum(200))), null);

export const LoadRules = z.object({
  limit: z._default(LoadLimit, { of: 'percent', percent: PUBLISHED_LIMIT_PERCENT }),
  /** Added to the weight of a rider marked unbalanced, percent of the rider's weight. 0 turns it off. */
  unbalancedAddPercent: z._default(z.number().check(z.minimum(0), z.maximum(25)), 10),
  /** Limit for a horse whose condition is flagged, percent; null leaves the barn's limit as it is. */
  flaggedConditionPercent: z._default(z.nullable(Percent), null),
  /** Take a taped weight at the low end of its range. */
  tapeAtLowEnd: z._default(z.boolean(), false),
  /** Tack nobody has weighed. */
  ponyTackKg: z._default(z.number().check(z.minimum(0), z.maximum(40)), 6.35),
  horseTackKg: z._default(z.number().check(z.minimum(0), z.maximum(40)), 9.5),
  /** The centre's own cap on a rider's weight, whatever the horse; null for none. */
  balancedRiderCapKg: RiderCapKg,
  unbalancedRiderCapKg: RiderCapKg,
});
export type LoadRules = z.infer<typeof LoadRules>;

export interface LoadCase {
  /** As ridden: clothed, with boots and helmet. */
  readonly riderKg: number | null;
  readonly riderBalance: 'balanced' | 'unbalanced';
  /** Saddle or surcingle, pad, girth, bridle; null takes the barn's allowance. */
  readonly tackKg: number | null;
  readonly horseWeight: HorseWeight | null;
  readonly pony: boolean;
  readonly condition: HennekeScore | null;
  readonly horseLimit: HorseLoadLimit | null;
}

export interface LoadFigures {
  readonly riderKg: number;
  /** With the addition for an unbalanced rider. */
  readonly countedRiderKg: number;
  readonly tackKg: number;
  readonly totalKg: number;
  /** The horse's weight as counted. */
  readonly horseKg: number;
  readonly limitKg: number;
  readonly limitFrom: 'barn' | 'horse' | 'condition';
  /** Total over the horse's counted weight, in percent. */
  readonly percent: number;
  /** Limit less total; negative when over. */
  readonly spareKg: number;
}

/** Worth a look though the answer stands. */
export type LoadCaution =
  | 'tack-weight-is-an-allowance'
  | 'tape-error-could-change-it'
  | 'condition-thin'
  | 'condition-fat'
  | 'over-published-limit';

export interface LoadRefusal {
  readonly code: 'over-limit' | 'over-rider-cap';
  /** kg, the figure that was broken. */
  readonly limitKg: number;
}

export type LoadVerdict =
  | { readonly kind: 'fits'; readonly figures: LoadFigures; readonly cautions: readonly LoadCaution[] }
  | {
      readonly kind: 'does-not-fit';
      readonly because: readonly LoadRefusal[];
      readonly figures: LoadFigures;
      readonly cautions: readonly LoadCaution[];
    }
  | CannotSay<BadFigure | { readonly code: 'no-rider-weight' | 'no-horse-weight' }>;

/** Lets 88 + 12 against 100 pass in spite of binary fractions; far below what any scale shows. */
const ROUNDING = 1e-9;

/**
 * Rider as ridden plus tack against the horse's weight.
 *
 * Sources: 20 % with tack, Powell, Bennett-Wimbush, Peeples, Duthie 2008; one sixth and 6.35 / 9.5 kg for tack,
 * RDA UK; addition of 10 % (some cases 15 %) for an unbalanced rider, RDA UK and the Association of British
 * Riding Schools. All weights in kg. The limit that applies is the lowest of barn, horse and condition.
 * A weight that is missing or outside nature gives "cannot say", never a yes.
 */
export function judgeLoad(
  rules: {
    readonly load: LoadRules;
    readonly bodyWeight: BodyWeightRules;
    readonly condition: ConditionRules;
  },
  load: LoadCase,
): LoadVerdict {
  if (load.riderKg === null) return cannotSay({ code: 'no-rider-weight' });
  if (load.horseWeight === null) return cannotSay({ code: 'no-horse-weight' });
  const tackKg = load.tackKg ?? (load.pony ? rules.load.ponyTackKg : rules.load.horseTackKg);
  const bad = badFigure('riderKg', load.riderKg, 5, 300) ?? badFigure('tackKg', tackKg, 0, 60);
  if (bad) return cannotSay(bad);
  const weight = weighed(rules.bodyWeight, load.horseWeight);
  if (weight.kind === 'cannot-say') return weight;

  const unbalanced = load.riderBalance === 'unbalanced';
  const countedRiderKg = load.riderKg * (1 + (unbalanced ? rules.load.unbalancedAddPercent : 0) / 100);
  const totalKg = countedRiderKg + tackKg;
  const flag = load.condition === null ? null : conditionFlag(rules.condition, load.condition);
  const limitAt = (horseKg: number) => lowestLimit(rules.load, load.horseLimit, flag !== null, horseKg);

  const horseKg = rules.load.tapeAtLowEnd ? weight.lowKg : weight.kg;
  const limit = limitAt(horseKg);
  const figures: LoadFigures = {
    riderKg: load.riderKg,
    countedRiderKg,
    tackKg,
    totalKg,
    horseKg,
    limitKg: limit.kg,
    limitFrom: limit.from,
    percent: (100 * totalKg) / horseKg,
    spareKg: limit.kg - totalKg,
  };

  const over = isOver(totalKg, limit.kg);
  const cautions: LoadCaution[] = [];
  if (load.tackKg === null) cautions.push('tack-weight-is-an-allowance');
  if (isOver(totalKg, limitAt(weight.lowKg).kg) !== isOver(totalKg, limitAt(weight.highKg).kg)) {
    cautions.push('tape-error-could-change-it');
  }
  if (flag !== null) cautions.push(flag === 'thin' ? 'condition-thin' : 'condition-fat');
  if (isOver(totalKg, (horseKg * PUBLISHED_LIMIT_PERCENT) / 100)) cautions.push('over-published-limit');

  const because: LoadRefusal[] = [];
  if (over) because.push({ code: 'over-limit', limitKg: limit.kg });
  const cap = unbalanced ? rules.load.unbalancedRiderCapKg : rules.load.balancedRiderCapKg;
  if (cap !== null && isOver(load.riderKg, cap)) because.push({ code: 'over-rider-cap', limitKg: cap });

  if (because.length > 0) return { kind: 'does-not-fit', because, figures, cautions };
  return { kind: 'fits', figures, cautions };
}

/** What the barn's rule allows a horse of this weight, in kg, rider plus tack. */
export function limitKg(limit: LoadLimit | HorseLoadLimit, horseKg: number): number {
  switch (limit.of) {
    case 'percent':
      return (horseKg * limit.percent) / 100;
    case 'sixth':
      return horseKg / 6;
    case 'kg':
      return limit.kg;
  }
}

function lowestLimit(
  rules: LoadRules,
  own: HorseLoadLimit | null,
  flagged: boolean,
  horseKg: number,
): { readonly kg: number; readonly from: LoadFigures['limitFrom'] } {
  let lowest: { kg: number; from: LoadFigures['limitFrom'] } = {
    kg: limitKg(rules.limit, horseKg),
    from: 'barn',
  };
  if (own !== null) {
    const kg = limitKg(own, horseKg);
    if (kg < lowest.kg) lowest = { kg, from: 'horse' };
  }
  if (flagged && rules.flaggedConditionPercent !== null) {
    const kg = (horseKg * rules.flaggedConditionPercent) / 100;
    if (kg < lowest.kg) lowest = { kg, from: 'condition' };
  }
  return lowest;
}

function isOver(kg: number, limit: number): boolean {
  return kg > limit * (1 + ROUNDING);
}
