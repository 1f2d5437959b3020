/** The barn’s edges of the heat sum. */
import * as z from 'zod/mini';
import { BandEdge } from './bandEdge.ts';
import { from, over } from './bands.ts';

export const HeatSumRules = z.object({
  reduced: z._default(BandEdge, from(130)),
  greatlyReduced: z._default(BandEdge, over(150)),
  noWork: z._default(BandEdge, over(180)),
  /** Some pages take the wind in mph off the sum, university pages do not. */
  subtractWind: z._default(z.boolean(), false),
  /** Over this humidity sweat cools much less, percent. */
  humidOverPercent: z._default(z.number().check(z.minimum(30), z.maximum(100)), 75),
});
export type HeatSumRules = z.infer<typeof HeatSumRules>;
