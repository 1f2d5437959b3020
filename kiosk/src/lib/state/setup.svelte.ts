/** This tablet's own settings: where it hangs, how its tiles are ordered, how fine and how light its glass is. */
import type { TabletPlace } from '#core/day/places.ts';
import type { TileOrder } from '#core/day/views/aisle.ts';
import type { Theme, ThemeChoice } from '#core/sight/theme.ts';
import type { Remembered } from '../link/store.ts';

/** Until a panel is calibrated: between the usual ones of 10 to 16 inches, 0.170 (224 ppi, DPR 1.5) to 0.192 (264 ppi, DPR 2). */
const USUAL_MM_PER_PX = 0.18;

export class Setup {
  readonly #shelf: Remembered;
  #place = $state.raw<TabletPlace | null>(null);
  #order = $state<TileOrder>('stall');
  #mmPerPx = $state(USUAL_MM_PER_PX);
  #isCalibrated = $state(false);
  #theme = $state<ThemeChoice>('clock');

  constructor(shelf: Remembered) {
    this.#shelf = shelf;
    this.#place = shelf.get('place');
    this.#order = shelf.get('order') ?? 'stall';
    const measured = shelf.get('mmPerPx');
    this.#mmPerPx = measured ?? USUAL_MM_PER_PX;
    this.#isCalibrated = measured !== null;
    this.#theme = shelf.get('theme') ?? 'clock';
  }

  /** Null before somebody said where it hangs. */
  get place(): TabletPlace | null {
    return this.#place;
  }

  /** A coordinator's tablet lies in a hand: it is zoomed and marked as any page, and has its own screen saver. */
  get hangs(): boolean {
    return this.#place?.role === 'aisle' || this.#place?.role === 'door';
  }

  get order(): TileOrder {
    return this.#order;
  }

  get mmPerPx(): number {
    return this.#mmPerPx;
  }

  /** False: a usual panel is assumed. */
  get isCalibrated(): boolean {
    return this.#isCalibrated;
  }

  get theme(): ThemeChoice {
    return this.#theme;
  }

  setPlace(place: TabletPlace): void {
    this.#place = place;
    this.#shelf.set('place', place);
  }

  /** As what a hub with a gate hears it: only `resting`, what it is while nobody has unlocked it, is kept. */
  stand(place: TabletPlace | null, resting: TabletPlace | null): void {
    this.#place = place;
    if (resting) this.#shelf.set('place', resting);
    else this.#shelf.forget('place');
  }

  /** BCP 47; said from the next time the page is loaded. */
  setLanguage(code: string): void {
    this.#shelf.set('language', code);
  }

  setOrder(order: TileOrder): void {
    this.#order = order;
    this.#shelf.set('order', order);
  }

  setMmPerPx(mmPerPx: number): void {
    this.#mmPerPx = mmPerPx;
    this.#isCalibrated = this.#shelf.set('mmPerPx', mmPerPx);
  }

  /** The look this glass had last: it is kept until the barn's time is known. */
  get look(): Theme {
    return this.#shelf.get('look') ?? 'day';
  }

  tookLook(look: Theme): void {
    if (look !== this.look) this.#shelf.set('look', look);
  }

  setTheme(theme: ThemeChoice): void {
    this.#theme = theme;
    this.#shelf.set('theme', theme);
  }
}
