/** Whether somebody who was asked for today can still be counted on. */
import type { Presence } from './board.ts';

/** They are here, or still to come; otherwise they have left, or are not coming. */
export function isCountedOn({ state }: Presence): boolean {
  switch (state) {
    case 'here':
    case 'expected':
      return true;
    case 'left':
    case 'notComing':
      return false;
  }
}
