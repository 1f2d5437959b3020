/** A horse's weight, by scale or by tape. A tape gives an estimate, and says so. */
import * as z from 'zod/mini';
import { badFigure, cannotSay, type BadFigure, type CannotSay } from './figures.ts';
import { kgFromPounds } from './units.ts';

/** cm² · cm per kg. Mean of 281 horses. Carroll & Huntington, Equine Vet J 1988;20(1):41-45. */
const TAPE_DIVISOR_METRIC = 11_900;
/** in² · in per lb. M. Russell, Equine Extension, "Estimating a Horse's Body Weight". */
const TAPE_DIVISOR_INCH_POUND = 330;

/** Heart girth, and length from point of shoulder to point of buttock: outside these a slip of the finger. */
const GIRTH_CM = [60, 280] as const;
const LENGTH_CM = [50, 280] as const;
const GIRTH_IN = [24, 110] as const;
const LENGTH_IN = [20, 110] as const;

/** Outside these an "adult horse" is a slip of the finger: miniature to the heaviest draught. */
const HORSE_KG = [30, 1500] as const;

export const BodyWeightRules = z.object({
  /** Which published form a tape in inches is read with; a tape in centimetres is always read with 11,900. */
  inchFormula: z._default(z.enum(['over-330', 'over-300-plus-50']), 'over-330'),
  /** How far an estimate may be off, in percent either way. */
  tapeErrorPercent: z._default(z.number().check(z.minimum(0), z.maximum(30)), 10),
});
export type BodyWeightRules = z.infer<typeof BodyWeightRules>;

/** A weight as it stands in the records. */
export const HorseWeight = z.object({
  kg: z.number().check(z.minimum(HORSE_KG[0]), z.maximum(HORSE_KG[1])),
  how: z.enum(['scale', 'tape']),
});
export type HorseWeight = z.infer<typeof HorseWeight>;

/** A weight with the range it stands for; for a scale both ends equal the reading. */
interface Weighed {
  readonly kind: 'weight';
  readonly kg: number;
  readonly how: 'scale' | 'tape';
  readonly lowKg: number;
  readonly highKg: number;
}

interface NotAdult {
  readonly code: 'not-adult';
}

export type KnownWeight = Weighed | CannotSay<BadFigure>;
export type BodyWeight = KnownWeight | CannotSay<NotAdult>;

/** A reading of a scale, in kg. Refused outside 30 to 1500 kg. */
export function weightByScale(kg: number): KnownWeight {
  const bad = badFigure('horseKg', kg, ...HORSE_KG);
  if (bad) return cannotSay(bad);
  return { kind: 'weight', kg, how: 'scale', lowKg: kg, highKg: kg };
}

/**
 * Weight of an adult horse by tape in centimetres: girth² × length / 11,900.
 * Foals and young stock are refused: the divisor is for adults.
 */
export function weightByTapeCm(
  rules: BodyWeightRules,
  tape: { readonly girthCm: number; readonly lengthCm: number; readonly adult: boolean },
): BodyWeight {
  const bad =
    badFigure('girthCm', tape.girthCm, ...GIRTH_CM) ?? badFigure('lengthCm', tape.lengthCm, ...LENGTH_CM);
  if (bad) return cannotSay(bad);
  if (!tape.adult) return cannotSay({ code: 'not-adult' });
  return estimate(rules, (tape.girthCm * tape.girthCm * tape.lengthCm) / TAPE_DIVISOR_METRIC);
}

/** Weight of an adult horse by tape in inches, by the barn's formula; given in kg. Foals are refused. */
export function weightByTapeInches(
  rules: BodyWeightRules,
  tape: { readonly girthIn: number; readonly lengthIn: number; readonly adult: boolean },
): BodyWeight {
  const bad =
    badFigure('girthIn', tape.girthIn, ...GIRTH_IN) ?? badFigure('lengthIn', tape.lengthIn, ...LENGTH_IN);
  if (bad) return cannotSay(bad);
  if (!tape.adult) return cannotSay({ code: 'not-adult' });
  return estimate(rules, kgFromPounds(poundsByTape(rules.inchFormula, tape.girthIn, tape.lengthIn)));
}

/**
 * The two inch-and-pound forms in circulation, in lb. `over-300-plus-50`: Summit Equine (veterinary practice),
 * "Weight and Condition". They differ by up to some 15 %: a barn picks one and stays with it.
 */
export function poundsByTape(
  formula: BodyWeightRules['inchFormula'],
  girthIn: number,
  lengthIn: number,
): number {
  const volume = girthIn * girthIn * lengthIn;
  switch (formula) {
    case 'over-330':
      return volume / TAPE_DIVISOR_INCH_POUND;
    case 'over-300-plus-50':
      return volume / 300 + 50;
  }
}

/** The range of a weight in the records. */
export function weighed(rules: BodyWeightRules, weight: HorseWeight): KnownWeight {
  return weight.how === 'scale' ? weightByScale(weight.kg) : estimate(rules, weight.kg);
}

function estimate(rules: BodyWeightRules, kg: number): KnownWeight {
  const bad = badFigure('horseKg', kg, ...HORSE_KG);
  if (bad) return cannotSay(bad);
  const error = rules.tapeErrorPercent / 100;
  return { kind: 'weight', kg, how: 'tape', lowKg: kg * (1 - error), highKg: kg * (1 + error) };
}
