/** The barn’s ranges of signs counted at rest, and what can be recorded of them. */
import * as z from 'zod/mini';

/** What can be counted in a quarter of a minute. */
export const CountIn15s = z.int().check(z.minimum(0), z.maximum(75));

/** Rectal, °F. */
export const TemperatureF = z.number().check(z.minimum(90), z.maximum(112));
export const RefillSeconds = z.number().check(z.minimum(0), z.maximum(20));

const Range = z.object({ low: z.number().check(z.minimum(0)), high: z.number().check(z.minimum(0)) });

export const VitalsRules = z.object({
  /** Beats a minute, adult at rest. */
  pulse: z._default(Range, { low: 30, high: 42 }),
  /** Breaths a minute, adult at rest. */
  breathing: z._default(Range, { low: 12, high: 20 }),
  /** °F */
  temperatureF: z._default(Range, { low: 99.5, high: 101.5 }),
  /** Over this: vet now, °F. */
  temperatureVetOverF: z._default(z.number().check(z.minimum(101), z.maximum(106)), 102.5),
  /** Seconds until the gum is pink again. */
  refillSeconds: z._default(z.number().check(z.minimum(1), z.maximum(4)), 2),
  /** Over this at rest: vet now, beats a minute. */
  pulseVetOver: z._default(z.number().check(z.minimum(40), z.maximum(100)), 50),
});
export type VitalsRules = z.infer<typeof VitalsRules>;
