/** The part of pino-roll that the hub uses; the package brings no types. */
declare module 'pino-roll' {
  import type { EventEmitter } from 'node:events';
  import type { DestinationStream } from 'pino';

  type Options = {
    file: string;
    extension: string;
    size: string;
    sync: boolean;
    limit: { count: number; removeOtherLogFiles: boolean };
  };
  export default function roll(options: Options): Promise<DestinationStream & EventEmitter & { end(): void }>;
}
