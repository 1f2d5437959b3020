/** The command line of `demo/main.ts`. */
import { parseArgs } from 'node:util';
import { DateText } from '#core/barn/fields.ts';
import { DEFAULT_PORT } from '../hub/arguments.ts';
import { StartError } from '../hub/startError.ts';

export type DemoArguments = {
  readonly port: number;
  readonly data: string;
  readonly host: string;
  readonly names: readonly string[];
  readonly speed: number;
  readonly seed: number;
  /** ISO 8601; null: today in the demo barn's zone. */
  readonly date: string | null;
};

/** Barn minutes a minute. At 20 something is tapped every six seconds on average, and a board's minute lasts three. */
export const DEFAULT_SPEED = 20;
const FASTEST = 1000;

/** An afternoon with a late comer, a no-show and two horses late and mended before the first lesson. */
export const DEFAULT_SEED = 1;

const USAGE =
  'Usage: node demo/main.ts [--port 4610] [--data ./data] [--host 0.0.0.0] [--demo-speed 20] [--seed 1] [--date 2026-05-12]';

/** Throws StartError for anything it does not know. */
export function readDemoArguments(args: readonly string[]): DemoArguments {
  const values = parse(args);
  const { date = null } = values;
  if (date !== null && !isDate(date))
    throw new StartError(`--date takes a date like 2026-05-12, not "${date}".`);
  return {
    port: whole('port', values.port, DEFAULT_PORT, 0, 65_535),
    data: values.data ?? 'data',
    host: values.host ?? '0.0.0.0',
    names: values.name ?? [],
    speed: whole('demo-speed', values['demo-speed'], DEFAULT_SPEED, 1, FASTEST),
    seed: whole('seed', values.seed, DEFAULT_SEED, 0, 2 ** 31 - 1),
    date,
  };
}

function whole(name: string, text: string | undefined, usual: number, least: number, most: number): number {
  if (text === undefined) return usual;
  const value = Number(text);
  if (text.trim() !== '' && Number.isInteger(value) && value >= least && value <= most) return value;
  throw new StartError(`--${name} takes a whole number from ${least} to ${most}, not "${text}".`);
}

/** A date some calendar has: 2026-02-30 is none. */
function isDate(text: string): boolean {
  if (!DateText.safeParse(text).success) return false;
  return new Date(`${text}T00:00:00Z`).toISOString().startsWith(text);
}

const TEXT = { type: 'string' } as const;

function parse(args: readonly string[]) {
  try {
    return parseArgs({
      args: [...args],
      options: {
        port: TEXT,
        data: TEXT,
        host: TEXT,
        name: { ...TEXT, multiple: true },
        'demo-speed': TEXT,
        seed: TEXT,
        date: TEXT,
      },
    }).values;
  } catch (error) {
    const why = error instanceof Error ? error.message.split('. ')[0] : String(error);
    throw new StartError(`${why}. ${USAGE}`);
  }
}
