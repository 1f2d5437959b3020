/**
 * Barn time from hub time. Every instant in an op, entry or forecast is barn time; the hub's own time appears only in
 * `pong` and in the zero of this clock. Outside the demo both run alike.
 */

/** Barn time = `barn` + `rate` × (hub time − `hub`), all in ms; the wire's BarnClock. */
export type ClockRate = { readonly hub: number; readonly barn: number; readonly rate: number };

/** Barn time at hub time `hubNow`, in whole ms. */
export function barnTimeAt({ hub, barn, rate }: ClockRate, hubNow: number): number {
  return Math.floor(barn + rate * (hubNow - hub));
}
