/** All rules of care of one barn: one schema, every setting with a default. */
import * as z from 'zod/mini';
import { FindingsRules } from './findingLevels.ts';
import { BodyWeightRules } from './bodyWeight.ts';
import { ConditionRules } from './condition.ts';
import { FarrierRules } from './farrierRules.ts';
import { DEFAULT_FEET_ORDER, FeetOrder } from './feetOrder.ts';
import { HelmetRules } from './helmetRules.ts';
import { IsolationRules } from './isolation.ts';
import { LamenessRules } from './lamenessRules.ts';
import { LoadRules } from './load.ts';
import { VitalsRules } from './vitalsRules.ts';
import { WeatherRules } from './weatherRules.ts';
import { WorkloadRules } from './workloadRules.ts';

/** `CareRules.parse({})` gives the defaults; a barn stores only what it has set. */
export const CareRules = z.object({
  load: z.prefault(LoadRules, {}),
  bodyWeight: z.prefault(BodyWeightRules, {}),
  condition: z.prefault(ConditionRules, {}),
  workload: z.prefault(WorkloadRules, {}),
  weather: z.prefault(WeatherRules, {}),
  farrier: z.prefault(FarrierRules, {}),
  helmet: z.prefault(HelmetRules, {}),
  vitals: z.prefault(VitalsRules, {}),
  lameness: z.prefault(LamenessRules, {}),
  isolation: z.prefault(IsolationRules, {}),
  findings: z.prefault(FindingsRules, {}),
  feetOrder: z._default(FeetOrder, DEFAULT_FEET_ORDER),
});
export type CareRules = z.infer<typeof CareRules>;

export const DEFAULT_CARE_RULES: CareRules = CareRules.parse({});
