/** This tablet's own settings: where it hangs, how its tiles are ordered, how fine its glass is. */
import type { TabletPlace } from '#core/day/places.ts';
import type { TileOrder } from '#core/day/views/aisle.ts';
import type { Remembered } from '../link/store.ts';

/** The finest of the usual panels, so that a target is never smaller than meant: 224 ppi at 1.5 device pixels a pixel. */
export const FINEST_MM_PER_PX = 0.17;

export class Setup {
  readonly #shelf: Remembered;
  #place = $state.raw<TabletPlace | null>(null);
  #order = $state<TileOrder>('stall');
  #mmPerPx = $state(FINEST_MM_PER_PX);

  constructor(shelf: Remembered) {
    this.#shelf = shelf;
    this.#place = shelf.get('place');
    this.#order = shelf.get('order') ?? 'stall';
    this.#mmPerPx = shelf.get('mmPerPx') ?? FINEST_MM_PER_PX;
  }

  /** Null before somebody said where it hangs. */
  get place(): TabletPlace | null {
    return this.#place;
  }

  get order(): TileOrder {
    return this.#order;
  }

  get mmPerPx(): number {
    return this.#mmPerPx;
  }

  setPlace(place: TabletPlace): void {
    this.#place = place;
    this.#shelf.set('place', place);
  }

  setOrder(order: TileOrder): void {
    this.#order = order;
    this.#shelf.set('order', order);
  }
}
