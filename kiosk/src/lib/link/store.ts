/** What a tablet remembers over a reload: who it is, where it hangs, how it is set, and the last board it saw. */
import type { Board } from '#core/day/board.ts';
import type { Role, TabletPlace } from '#core/day/places.ts';
import type { Forecast } from '#core/plan/model.ts';
import { THEME_CHOICES, type Theme, type ThemeChoice } from '#core/sight/theme.ts';
import type { BarnClock } from '#core/wire/messages.ts';

/** localStorage, or anything like it. Both may throw: full, or switched off. */
export type Shelf = {
  readonly getItem: (key: string) => string | null;
  readonly setItem: (key: string, value: string) => void;
  readonly removeItem: (key: string) => void;
};

/** The last board, with the role it was sent to: a board for the coordinator must not be left on an aisle tablet. */
export type LastBoard = {
  /** The page that put it by: a board is only shown again by a page that knows the very same records. */
  readonly build: string;
  readonly role: Role;
  readonly journal: string;
  readonly seq: number;
  readonly board: Board;
  /** Unanswered taps of this tablet that the board has. */
  readonly landed: readonly string[];
  readonly forecast: Forecast | null;
  readonly clock: BarnClock;
  readonly demo: boolean;
  readonly hubMinusWall: number;
  /** Hub time at which the hub was last heard. */
  readonly heardAt: number;
};

/** A sentence nobody has closed, and when it was said by this device's clock. */
type Told = { readonly id: string; readonly text: string; readonly at: number };

type Shapes = {
  device: string;
  place: TabletPlace;
  /** BCP 47. */
  language: string;
  order: 'stall' | 'urgency';
  /** Millimetres of glass per CSS pixel. */
  mmPerPx: number;
  theme: ThemeChoice;
  /** The look it had last; `static/first-light.js` reads it too. */
  look: Theme;
  last: LastBoard;
  told: readonly Told[];
};

const isText = (value: unknown): value is string => typeof value === 'string';
const isNumber = (value: unknown): value is number => typeof value === 'number';
const areTexts = (value: unknown): boolean => Array.isArray(value) && value.every(isText);
const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null;

/**
 * Whether what is there is what was put by. Written by hand: the schemas would bring zod to every tablet, for what only this
 * browser has written.
 */
const FITS: { readonly [K in keyof Shapes]: (value: unknown) => boolean } = {
  device: (value) => isText(value) && /^[\w-]{1,32}$/.test(value),
  place: (value) => isRecord(value) && isPlace(value),
  language: (value) => isText(value) && value.length <= 35,
  order: (value) => value === 'stall' || value === 'urgency',
  mmPerPx: (value) => isNumber(value) && value >= 0.05 && value <= 1,
  theme: (value) => THEME_CHOICES.some((theme) => theme === value),
  look: (value) => value === 'day' || value === 'night',
  last: (value) =>
    isRecord(value) &&
    [value['build'], value['role'], value['journal']].every(isText) &&
    [value['seq'], value['hubMinusWall'], value['heardAt']].every(isNumber) &&
    [value['board'], value['clock']].every(isRecord) &&
    areTexts(value['landed']),
  told: (value) =>
    Array.isArray(value) &&
    value.every(
      (one: unknown) => isRecord(one) && isText(one['id']) && isText(one['text']) && isNumber(one['at']),
    ),
};

function isPlace(place: Readonly<Record<string, unknown>>): boolean {
  switch (place['role']) {
    case 'aisle':
      return areTexts(place['stalls']);
    case 'door':
      return (place['arena'] === null || isText(place['arena'])) && isNumber(place['metres']);
    default:
      return place['role'] === 'coordinator';
  }
}

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
      const value: unknown = JSON.parse(text);
      return FITS[key](value) ? (value as Shapes[K]) : null;
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
