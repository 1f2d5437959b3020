/** The hub's unit file for systemd, filled in. */
import { readFileSync } from 'node:fs';
import { StartError } from '../startError.ts';

export const SERVICE = 'aisle-board.service';

/** Name below /var/lib of the folder that systemd makes for the hub. */
export const STATE = 'aisle-board';

/** The data folder of an installed hub. */
export const INSTALLED_DATA = `/var/lib/${STATE}`;

export type UnitValues = {
  /** Folder of the releases and of the `current` link. */
  readonly root: string;
  readonly user: string;
  /** Name below /var/lib of the folder that systemd makes for `user`. */
  readonly state: string;
  readonly data: string;
  readonly port: number;
  /** More of the hub's options, each with a space in front. */
  readonly more: string;
};

/** What may stand in a unit file as it is: systemd reads %, $, quotes, backslashes and spaces in its own way. */
const PLAIN = /^[\w./:@-]+$/;
const PLAIN_OPTIONS = /^( [\w./:@-]+)*$/;

/** The unit file's text. Throws StartError for a value that would mean something to systemd. */
export function unitText(values: UnitValues): string {
  for (const [name, value] of Object.entries(values)) {
    const fits = name === 'more' ? PLAIN_OPTIONS : PLAIN;
    if (!fits.test(String(value))) {
      throw new StartError(
        `"${value}" cannot stand in a service file (${name}): letters, digits and ./:@-_ can.`,
      );
    }
  }
  const template = readFileSync(new URL('hub.service', import.meta.url), 'utf8');
  return template.replaceAll(/\{\{(\w+)\}\}/g, (_, name: keyof UnitValues) => String(values[name]));
}
