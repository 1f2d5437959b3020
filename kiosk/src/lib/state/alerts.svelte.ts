/** The one thing this tablet calls attention to, and what waits behind it: of the barn, of the hub, and of taps made here. */
import { inTurn, NOT_DONE_FIRST_MS, type Alert, type BarnAlert, type Turn } from '#core/day/alerts/alert.ts';
import { hubAlerts } from '#core/day/alerts/hub.ts';
import type { Board } from '#core/day/board.ts';
import type { Connection } from './connection.svelte.ts';
import type { Notices } from './notices.svelte.ts';
import type { Ticker } from './ticker.svelte.ts';

type Parts = {
  /** Null: there is none any more, while its screen is still being taken down. */
  readonly board: () => Board | null;
  readonly connection: Connection;
  readonly notices: Notices;
  readonly ticker: Ticker;
  /** This device's clock, ms. */
  readonly wall: () => number;
};

export class Alerts {
  readonly #parts: Parts;
  #ofScreen = $state.raw<(board: Board) => readonly BarnAlert[]>(() => []);
  readonly #turn: Turn = $derived.by(() =>
    inTurn([...this.#ofHub(), ...this.#notDone(), ...this.#fromScreen()]),
  );

  constructor(parts: Parts) {
    this.#parts = parts;
  }

  get shown(): Alert | null {
    return this.#turn.shown;
  }

  get waiting(): readonly Alert[] {
    return this.#turn.waiting;
  }

  /** Takes in what calls on a screen while it is open. Returns how to leave it out again. */
  from(screen: (board: Board) => readonly BarnAlert[]): () => void {
    this.#ofScreen = screen;
    return () => {
      if (this.#ofScreen === screen) this.#ofScreen = () => [];
    };
  }

  /** Before the board goes: what a screen called would be looked for on it once more. */
  forget(): void {
    this.#ofScreen = () => [];
  }

  #fromScreen(): readonly BarnAlert[] {
    const board = this.#parts.board();
    return board ? this.#ofScreen(board) : [];
  }

  #ofHub(): Alert[] {
    const { connection } = this.#parts;
    return hubAlerts({
      status: connection.status,
      awaySince: connection.isLive ? null : connection.heardAt,
      isUnreadable: connection.isUnreadable,
    });
  }

  #notDone(): Alert[] {
    const { notices, ticker, wall } = this.#parts;
    const declined = notices.list.filter(({ declinedAt }) => declinedAt !== null);
    // Looked at with each tick of the board's clock: what was just tapped is soon no longer first.
    if (declined.length > 0) void ticker.hub;
    return declined.map(({ id, declinedAt }) => ({
      kind: 'notDone',
      key: `notDone:${id}`,
      notice: id,
      since: declinedAt ?? 0,
      isFresh: Math.abs(wall() - (declinedAt ?? 0)) < NOT_DONE_FIRST_MS,
    }));
  }
}
