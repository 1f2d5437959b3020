/** What a hub is started with, and what there is to be done with one that runs. */
import type { Board } from '#core/day/board.ts';
import type { BarnClock } from '#core/wire/messages.ts';
import type { Clocks } from './clock.ts';
import type { Endpoint } from './endpoints.ts';
import type { ShowCode } from './gate/consoleCode.ts';
import type { Limits } from './gate/limits.ts';
import type { Heartbeat } from './sockets.ts';
import type { Certificates } from './tls/certificates.ts';

export type HubOptions = {
  /** 0: any free one. */
  readonly port: number;
  /** Address to listen on; default all. */
  readonly host?: string;
  /** Folder of this board's snapshot and journal, made when missing; null: kept in memory only. */
  readonly folder: string | null;
  /** Hub time in ms since 1970, trusted as it is; default the computer's clock, steadied. */
  readonly clock?: () => number;
  /** How barn time runs against hub time; default alike. */
  readonly barnClock?: BarnClock;
  /** A demo brings its own day, and its coordinator may leave it by `startBarn`. */
  readonly demo?: boolean;
  /** The board to begin with when the folder is empty; default an empty barn in this computer's zone. */
  readonly first?: Board;
  readonly onStartBarn?: (name: string, zone: string, code: string | null) => void;
  /**
   * Lets everybody in as whatever they say they are: for a demo and for tests that are about something else. No command
   * line has it.
   */
  readonly open?: boolean;
  /** A pairing code that counts from the start. */
  readonly firstCode?: string | null;
  /** Shows a pairing code on the hub's own console; default nowhere. */
  readonly showCode?: ShowCode;
  /** Names besides its own by which the hub may be called. */
  readonly names?: readonly string[];
  readonly limits?: Limits;
  /** The board by https with these; default plain http. */
  readonly certificates?: Certificates;
  /** Other computers may ask for /metrics, too. */
  readonly openMetrics?: boolean;
  /** What `clock` is steadied from; for tests. */
  readonly clocks?: Clocks;
  /** How often a disk that failed is tried again, in ms; default 3 s. */
  readonly mendEveryMs?: number;
  readonly heartbeat?: Heartbeat;
  /** Folder of the kiosk's built pages; default `kiosk/build`. */
  readonly kiosk?: string;
  /** One line at a time, with nothing personal in it; default standard error. */
  readonly log?: (line: string) => void;
};

export type Hub = {
  readonly port: number;
  /** The barn's name as it stands. */
  readonly barnName: () => string;
  /** Addresses for tablets, best first. */
  readonly addresses: readonly string[];
  /** Looks whether the certificate is still good for these names, and shows a renewed one if not. */
  certify(names: readonly string[]): Promise<void>;
  /** What is answered over HTTP besides pages, and to whom. */
  readonly endpoints: readonly Pick<Endpoint, 'method' | 'path' | 'may'>[];
  /** Finishes what is under way, writes a snapshot, says goodbye to every tablet and gives the port and folder back. */
  close(): Promise<void>;
};
