/**
 * `npm run bench -- plan [--json]`: figures of the planner, part by part.
 * `npm run bench -- plan --instance FILE --seconds S [--json]`: solves one flexible job shop.
 */
import { parseArgs } from 'node:util';
import { benchExact } from './exact.ts';
import { benchForecast, benchRefresh } from './forecast.ts';
import { solveFile } from './instance.ts';
import { benchPublished } from './published.ts';
import { benchReplan } from './replan.ts';
import { benchWorker } from './worker.ts';

/** Each part is one key of the JSON answer. */
const parts: Record<string, () => unknown> = {
  published: benchPublished,
  exact: benchExact,
  replan: benchReplan,
  forecast: () => ({ ...benchForecast(), refresh: benchRefresh() }),
  worker: benchWorker,
};

const DEFAULT_SECONDS = 1;

export async function main(args: string[]): Promise<number> {
  const { values } = parseArgs({
    args,
    options: { instance: { type: 'string' }, seconds: { type: 'string' }, json: { type: 'boolean' } },
  });
  const print = (value: unknown): void => {
    console.log(JSON.stringify(value, null, values.json === true ? 0 : 2));
  };
  if (values.instance !== undefined) {
    const seconds = Number(values.seconds ?? DEFAULT_SECONDS);
    if (!(seconds > 0)) {
      console.error('--seconds takes a number above 0');
      return 2;
    }
    print(solveFile(values.instance, seconds));
    return 0;
  }
  const figures: Record<string, unknown> = {};
  for (const [name, measure] of Object.entries(parts)) figures[name] = await measure();
  print(figures);
  return 0;
}
