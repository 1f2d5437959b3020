/** The command line of `hub/main.ts`. */
import { parseArgs } from 'node:util';
import { StartError } from './startError.ts';

export type Arguments = {
  readonly port: number;
  readonly data: string;
  readonly host: string;
  /** Names besides its own by which the hub may be called. */
  readonly names: readonly string[];
};

export const DEFAULT_PORT = 4610;

/** Throws StartError for anything it does not know. */
export function readArguments(args: readonly string[]): Arguments {
  const values = parse(args);
  const port = Number(values.port ?? DEFAULT_PORT);
  if (!Number.isInteger(port) || port < 0 || port > 65_535) {
    throw new StartError(`--port takes a number from 0 to 65535, not "${values.port}".`);
  }
  return {
    port,
    data: values.data ?? 'data',
    host: values.host ?? '0.0.0.0',
    names: values.name ?? [],
  };
}

type Values = { port?: string; data?: string; host?: string; name?: string[] };

function parse(args: readonly string[]): Values {
  try {
    return parseArgs({
      args: [...args],
      options: {
        port: { type: 'string' },
        data: { type: 'string' },
        host: { type: 'string' },
        name: { type: 'string', multiple: true },
      },
    }).values;
  } catch (error) {
    const why = error instanceof Error ? error.message.split('. ')[0] : String(error);
    throw new StartError(
      `${why}. Usage: node hub/main.ts [--port 4610] [--data ./data] [--host 0.0.0.0] [--name barn.example]`,
    );
  }
}
