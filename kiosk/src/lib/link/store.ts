/** What a tablet remembers over a reload: who it is, where it hangs, how it is set, and the last board it saw. */
import * as z from 'zod/mini';
import { Id, Instant } from '#core/barn/basics.ts';
import { Board } from '#core/day/board.ts';
import { TabletPlace } from '#core/day/places.ts';
import { Forecast } from '#core/plan/model.ts';
import { ThemeChoice } from '#core/sight/theme.ts';
import { BarnClock } from '#core/wire/messages.ts';

/** localStorage, or anything like it. Both may throw: full, or switched off. */
export type Shelf = {
  readonly getItem: (key: string) => string | null;
  readonly setItem: (key: string, value: string) => void;
  readonly removeItem: (key: string) => void;
};

/** The last board, with the role it was sent to: a board for the coordinator must not be left on an aisle tablet. */
export const LastBoard = z.object({
  role: z.enum(['aisle', 'door', 'coordinator']),
  journal: Id,
  seq: z.int(),
  board: Board,
  /** Unanswered taps of this tablet that the board has. */
  landed: z._default(z.array(Id), []),
  forecast: z.nullable(Forecast),
  clock: BarnClock,
  demo: z.boolean(),
  hubMinusWall: z.number(),
  /** Hub time at which the hub was last heard. */
  heardAt: Instant,
});
export type LastBoard = z.infer<typeof LastBoard>;

const SHAPES = {
  device: Id,
  place: TabletPlace,
  language: z.string().check(z.maxLength(35)),
  order: z.enum(['stall', 'urgency']),
  /** Millimetres of glass per CSS pixel. */
  mmPerPx: z.number().check(z.gte(0.05), z.lte(1)),
  theme: ThemeChoice,
  last: LastBoard,
  /** Sentences nobody has closed, and when they were said by this device's clock. */
  told: z.array(z.object({ id: z.string(), text: z.string(), at: z.number() })),
};
type Shapes = { [K in keyof typeof SHAPES]: z.infer<(typeof SHAPES)[K]> };

export class Remembered {
  readonly #shelf: Shelf;

  constructor(shelf: Shelf) {
    this.#shelf = shelf;
  }

  /** Null: nothing there, or nothing that still makes sense. */
  get<K extends keyof Shapes>(key: K): Shapes[K] | null {
    try {
      const text = this.#shelf.getItem(`aisle-board.${key}`);
      if (text === null) return null;
      const parsed = SHAPES[key].safeParse(JSON.parse(text));
      return parsed.success ? (parsed.data as Shapes[K]) : null;
    } catch {
      return null;
    }
  }

  /** False when the browser would not keep it. */
  set<K extends keyof Shapes>(key: K, value: Shapes[K]): boolean {
    try {
      this.#shelf.setItem(`aisle-board.${key}`, JSON.stringify(value));
      return true;
    } catch {
      return false;
    }
  }

  forget(key: keyof Shapes): void {
    try {
      this.#shelf.removeItem(`aisle-board.${key}`);
    } catch {
      // What cannot be written could not be kept either.
    }
  }
}
