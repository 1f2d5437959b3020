/** Tablets of a hub with its gate: paired as a page does it, hung, and unlocked. */
import type { TabletPlace } from '#core/day/places.ts';
import type { GateOutcome, Wish } from '#core/wire/gate.ts';
import { Client, type Message } from './client.ts';

/** A PIN for tests. */
export const PIN = '728405';

const AISLE: TabletPlace = { role: 'aisle', stalls: [] };

/** What the hub answers to a pairing code. `code` null: from a browser at the hub. */
export function askToPair(port: number, code: string | null, cookie?: string): Promise<Response> {
  return fetch(`http://127.0.0.1:${port}/gate/pair`, {
    method: 'POST',
    headers: { 'Content-Type': 'application/json', ...(cookie !== undefined && { Cookie: cookie }) },
    body: JSON.stringify({ code }),
  });
}

/** The cookie of a tablet paired with this code. */
export async function pair(port: number, code: string | null): Promise<string> {
  const answer = await askToPair(port, code);
  const cookie = answer.headers.get('set-cookie')?.split(';')[0];
  if (answer.status !== 204 || cookie === undefined) throw new Error(`not paired: ${answer.status}`);
  return cookie;
}

let asks = 0;

/** Asks the gate; waits for its answer. */
export async function ask(client: Client, wish: Wish): Promise<GateOutcome> {
  asks += 1;
  const id = `ask-${asks}`;
  client.say({ say: 'askGate', ask: id, wish });
  for (;;) {
    const answer = await client.next('gateAnswer');
    if (answer.ask === id) return answer.outcome;
  }
}

export type Paired = {
  readonly client: Client;
  readonly cookie: string;
  readonly device: string;
  readonly welcome: Message<'welcome'>;
};

/** Connects a tablet that is paired. */
export async function connect(port: number, cookie: string): Promise<Paired> {
  const { client, welcome } = await Client.join(port, AISLE, 'whatever-it-says', null, { cookie });
  return { client, cookie, device: welcome.here?.device ?? '', welcome };
}

/** Pairs a tablet and hangs it. */
export async function hung(port: number, code: string | null, place: TabletPlace): Promise<Paired> {
  const paired = await connect(port, await pair(port, code));
  await ask(paired.client, { to: 'hang', tablet: paired.device, name: place.role, place });
  return { ...paired, welcome: await paired.client.next('welcome') };
}

/** The first coordinator at their own tablet, which is unlocked. `by`: their id among the staff. */
export async function firstCoordinator(port: number, code: string | null): Promise<Paired & { by: string }> {
  const tablet = await hung(port, code, { role: 'coordinator' });
  const outcome = await ask(tablet.client, { to: 'begin', name: 'Ines', pin: PIN });
  if (outcome.is !== 'done') throw new Error(`not begun: ${JSON.stringify(outcome)}`);
  for (;;) {
    const welcome = await tablet.client.next('welcome');
    const by = welcome.here?.by;
    if (by) return { ...tablet, welcome, by };
  }
}

/** A code from a coordinator who has unlocked this tablet. */
export async function codeFrom(client: Client): Promise<string> {
  const outcome = await ask(client, { to: 'makeCode' });
  if (outcome.is !== 'code') throw new Error(`no code: ${JSON.stringify(outcome)}`);
  return outcome.code;
}
