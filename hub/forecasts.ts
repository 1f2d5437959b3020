/** The last forecast, told to everybody when it is made and to whoever comes later. */
import type { Forecast } from '#core/plan/model.ts';
import type { Audience } from './audience.ts';
import type { Session } from './session.ts';
import { forecastFor } from './shown.ts';

export class Forecasts {
  readonly #audience: Audience;
  /** Hub time in ms. */
  readonly #clock: () => number;
  #last: Forecast | null = null;
  #at: number | null = null;

  constructor(audience: Audience, clock: () => number) {
    this.#audience = audience;
    this.#clock = clock;
  }

  /** Hub time of the last one in ms; null before the first. */
  get at(): number | null {
    return this.#at;
  }

  /** Null before the first. */
  get last(): Forecast | null {
    return this.#last;
  }

  share(forecast: Forecast): void {
    this.#last = forecast;
    this.#at = this.#clock();
    this.#audience.toEverybody((role) => forecastFor(role, forecast));
  }

  welcome(session: Session): void {
    if (this.#last && session.role) this.#audience.say(session, forecastFor(session.role, this.#last));
  }
}
