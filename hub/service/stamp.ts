/** Date and time in a folder's name. */

/** `20261125-141205` for ms since 1970, in UTC: names sort by age whatever the zone does. */
export function stamp(at: number): string {
  return new Date(at).toISOString().slice(0, 19).replaceAll(/[-:]/g, '').replace('T', '-');
}
