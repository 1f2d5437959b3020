/** Which screen a tablet shows by where it hangs. */
import type { Role } from '#core/day/places.ts';

export const SCREEN_OF = {
  aisle: '/aisle',
  door: '/door',
  coordinator: '/coordinator',
} as const satisfies Record<Role, string>;
