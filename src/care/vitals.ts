/** Signs counted at rest. A sign outside its range is told to the instructor; what it means is the vet's to say. */
import type { VitalsRules } from './vitalsRules.ts';
import { badFigure, cannotSay, type BadFigure, type CannotSay } from './figures.ts';

/** A count over a quarter of a minute, four of them to the minute. */
const COUNTS_PER_MINUTE = 4;

export interface VitalSign {
  readonly kind: 'within' | 'below' | 'above';
  /** A minute, °F or seconds, by the sign. */
  readonly figure: number;
  readonly call: 'nobody' | 'instructor' | 'vet';
}

type Judged = VitalSign | CannotSay<BadFigure>;

/** Turns a 15-second count into a figure a minute; whole counts 0 to 75. Source: count for 15 s, times four. */
export function perMinute(countIn15s: number): number | CannotSay<BadFigure> {
  const bad = badFigure('countIn15s', Number.isInteger(countIn15s) ? countIn15s : Number.NaN, 0, 75);
  return bad ? cannotSay({ ...bad, value: countIn15s }) : countIn15s * COUNTS_PER_MINUTE;
}

/** Pulse at rest from a 15-second count. Range 30-42: Equine Veterinary Service. Others say 26-40 up to 30-44. */
export function judgePulse(rules: VitalsRules, countIn15s: number): Judged {
  const rate = perMinute(countIn15s);
  return typeof rate === 'number' ? judge(rules.pulse, rate, rules.pulseVetOver) : rate;
}

/** Breathing at rest from a 15-second count. Range 12-20: Equine Veterinary Service. Others begin at 8. */
export function judgeBreathing(rules: VitalsRules, countIn15s: number): Judged {
  const rate = perMinute(countIn15s);
  return typeof rate === 'number' ? judge(rules.breathing, rate, Number.POSITIVE_INFINITY) : rate;
}

/** Rectal temperature in °F, refused outside 90 to 112. Vet at once over 102.5 °F: Equine Veterinary Service. */
export function judgeTemperatureF(rules: VitalsRules, temperatureF: number): Judged {
  const bad = badFigure('temperatureF', temperatureF, 90, 112);
  return bad ? cannotSay(bad) : judge(rules.temperatureF, temperatureF, rules.temperatureVetOverF);
}

/** Capillary refill in seconds, refused outside 0 to 20. Over 2 s is told. */
export function judgeRefill(rules: VitalsRules, seconds: number): Judged {
  const bad = badFigure('refillSeconds', seconds, 0, 20);
  return bad
    ? cannotSay(bad)
    : judge({ low: 0, high: rules.refillSeconds }, seconds, Number.POSITIVE_INFINITY);
}

/** One sign as it is recorded, against the barn's ranges. */
export function judgeVital(
  rules: VitalsRules,
  seen:
    | { readonly kind: 'pulse' | 'breathing'; readonly countIn15s: number }
    | { readonly kind: 'temperature'; readonly fahrenheit: number }
    | { readonly kind: 'refill'; readonly seconds: number },
): Judged {
  switch (seen.kind) {
    case 'pulse':
      return judgePulse(rules, seen.countIn15s);
    case 'breathing':
      return judgeBreathing(rules, seen.countIn15s);
    case 'temperature':
      return judgeTemperatureF(rules, seen.fahrenheit);
    case 'refill':
      return judgeRefill(rules, seen.seconds);
  }
}

function judge(range: VitalsRules['pulse'], figure: number, vetOver: number): VitalSign {
  const kind = figure < range.low ? 'below' : figure > range.high ? 'above' : 'within';
  const call = figure > vetOver ? 'vet' : kind === 'within' ? 'nobody' : 'instructor';
  return { kind, figure, call };
}
