/** Will every horse be ready? */
import type { Forecast, PlanInput } from './model.ts';
import { simpleForecast } from './simpleForecast.ts';

export function forecast(input: PlanInput): Forecast {
  return simpleForecast(input);
}
