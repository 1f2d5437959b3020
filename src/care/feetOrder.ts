/** The four feet, and the order in which a barn picks them up. */
import * as z from 'zod/mini';
import type { Sourced } from './figures.ts';

/** Left and right as the horse's own; F front, H hind. */
export const FEET = ['LF', 'LH', 'RF', 'RH'] as const;
export const Foot = z.enum(FEET);
export type Foot = z.infer<typeof Foot>;

/** All four feet, each once. */
export const FeetOrder = z
  .tuple([Foot, Foot, Foot, Foot])
  .check(z.refine((feet) => new Set(feet).size === FEET.length, { error: 'each foot once' }));
export type FeetOrder = z.infer<typeof FeetOrder>;

/** Orders seen; there is no agreed one, so it is the barn's to set. */
export const FEET_ORDERS = [
  {
    id: 'round',
    order: ['LF', 'LH', 'RH', 'RF'],
    source: 'Healing with Horses, volunteer handbook; common practice: front, hind, other hind, other front',
    grade: 'B',
  },
  {
    id: 'side-by-side',
    order: ['LF', 'LH', 'RF', 'RH'],
    source: 'General web guide to picking feet',
    grade: 'C',
  },
] as const satisfies readonly (Sourced & { readonly id: string; readonly order: FeetOrder })[];

export const DEFAULT_FEET_ORDER: FeetOrder = [...FEET_ORDERS[0].order];
