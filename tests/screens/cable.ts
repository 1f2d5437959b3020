/** The wire between one tablet's pages and its hub, which a test can pull out, listen to, and speak into. */
import type { BrowserContext, WebSocketRoute } from 'playwright';
import { FromTablet, type FromHub } from '#core/wire/messages.ts';

export class Cable {
  /** Ids of every tap that went over it, in order, each time it went. */
  readonly tapsSent: string[] = [];
  /** Changes what the hub says on its way; null: kept from the tablet. */
  fromHub: (text: string) => string | null = (text) => text;
  /** What the tablet is told instead of its taps reaching the hub; null: they reach it. */
  insteadOfTaps: (() => FromHub[]) | null = null;
  #isIn = true;
  readonly #lines = new Set<WebSocketRoute>();

  async plugInto(context: BrowserContext): Promise<void> {
    await context.routeWebSocket('**/live', (line) => this.#open(line));
  }

  /** From now on nothing gets through; whoever is connected finds out at once. */
  async pull(): Promise<void> {
    this.#isIn = false;
    const lines = [...this.#lines];
    this.#lines.clear();
    await Promise.all(lines.map((line) => line.close()));
  }

  push(): void {
    this.#isIn = true;
  }

  /** Says something to every page, as if the hub had. */
  say(message: FromHub): void {
    for (const line of this.#lines) line.send(JSON.stringify(message));
  }

  #open(line: WebSocketRoute): void {
    if (!this.#isIn) return void line.close();
    const hub = line.connectToServer();
    this.#lines.add(line);
    line.onClose(() => {
      this.#lines.delete(line);
      void hub.close();
    });
    hub.onClose(() => {
      this.#lines.delete(line);
      void line.close();
    });
    line.onMessage((data) => {
      const message = FromTablet.parse(JSON.parse(String(data)));
      if (message.say === 'taps') {
        this.tapsSent.push(...message.ops.map(({ id }) => id));
        if (this.insteadOfTaps)
          return this.insteadOfTaps().forEach((said) => line.send(JSON.stringify(said)));
      }
      hub.send(data);
    });
    hub.onMessage((data) => {
      const text = this.fromHub(String(data));
      if (text !== null) line.send(text);
    });
  }
}
