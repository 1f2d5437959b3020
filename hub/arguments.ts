/** The command line of `hub/run.ts`. */
import { parseArgs } from 'node:util';
import { StartError } from './startError.ts';

export type Arguments = {
  readonly port: number;
  readonly data: string;
  readonly host: string;
  /** Names besides its own by which the hub may be called. */
  readonly names: readonly string[];
  /** By https: with the hub's own certificate, or with the barn's own files. Null: plain http. */
  readonly tls: 'own' | { readonly cert: string; readonly key: string } | null;
  /** Other computers may ask for /metrics, too. */
  readonly metrics: boolean;
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
    tls: tlsOf(values),
    metrics: values.metrics ?? false,
  };
}

function tlsOf({ tls = false, 'tls-cert': cert, 'tls-key': key }: Values): Arguments['tls'] {
  if (cert !== undefined && key !== undefined) return { cert, key };
  if (cert !== undefined || key !== undefined) {
    throw new StartError(
      '--tls-cert and --tls-key belong together: the certificate and its key, as PEM files.',
    );
  }
  return tls ? 'own' : null;
}

type Values = {
  port?: string;
  data?: string;
  host?: string;
  name?: string[];
  tls?: boolean;
  'tls-cert'?: string;
  'tls-key'?: string;
  metrics?: boolean;
};

function parse(args: readonly string[]): Values {
  try {
    return parseArgs({
      args: [...args],
      options: {
        port: { type: 'string' },
        data: { type: 'string' },
        host: { type: 'string' },
        name: { type: 'string', multiple: true },
        tls: { type: 'boolean' },
        'tls-cert': { type: 'string' },
        'tls-key': { type: 'string' },
        metrics: { type: 'boolean' },
      },
    }).values;
  } catch (error) {
    const why = error instanceof Error ? error.message.split('. ')[0] : String(error);
    throw new StartError(
      `${why}. Usage: node hub/run.ts [--port 4610] [--data ./data] [--host 0.0.0.0] [--name barn.example] ` +
        '[--tls | --tls-cert FILE --tls-key FILE] [--metrics]',
    );
  }
}
