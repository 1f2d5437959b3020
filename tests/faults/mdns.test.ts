/** The hub found by name, asked over real multicast on the loopback by a client of the same standard. Figures: RFC 6762. */
import makeMdns, { type MulticastDNS, type ResponsePacket } from 'multicast-dns';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { announce, type Announced } from '../../hub/mdns.ts';

const LOOPBACK = '127.0.0.1';
const HOW = { wished: 'test-board', port: 4610, isTls: true, log: () => {}, on: LOOPBACK };

let client: MulticastDNS;
const announced: Announced[] = [];

async function hub(): Promise<Announced> {
  const one = await announce(HOW);
  if (!one) throw new Error('no multicast on the loopback');
  announced.push(one);
  return one;
}

function ask(name: string, type: 'A' | 'PTR' | 'SRV'): Promise<NonNullable<ResponsePacket['answers']>> {
  return new Promise((done, fail) => {
    const tooLong = setTimeout(() => fail(new Error(`nobody answers for ${name}`)), 3000);
    const heard = ({ answers = [] }: ResponsePacket): void => {
      const found = answers.filter((one) => one.name === name && one.type === type);
      if (found.length === 0) return;
      clearTimeout(tooLong);
      client.off('response', heard);
      done(found);
    };
    client.on('response', heard);
    client.query(name, type);
  });
}

beforeEach(() => {
  client = makeMdns({ interface: LOOPBACK, bind: '0.0.0.0' });
});
afterEach(async () => {
  await Promise.all(announced.splice(0).map((one) => one.stop()));
  await new Promise<void>((done) => client.destroy(done));
});

describe('multicast DNS', () => {
  it('answers for its name with its address, 120 s to live and the cache-flush bit (RFC 6762, 10 and 10.2)', async () => {
    expect((await hub()).name).toBe('test-board.local');
    const [answer] = await ask('test-board.local', 'A');
    expect(answer).toMatchObject({ data: LOOPBACK, ttl: 120, flush: true });
  });

  it('can be browsed for as a web service with its port (RFC 6763)', async () => {
    await hub();
    const [pointer] = await ask('_http._tcp.local', 'PTR');
    expect(pointer).toMatchObject({ data: 'test-board._http._tcp.local' });
    const [service] = await ask('test-board._http._tcp.local', 'SRV');
    expect(service).toMatchObject({ data: { port: 4610, target: 'test-board.local' } });
  });

  it('takes the next name where the name is somebody’s already (RFC 6762, 9)', async () => {
    await hub();
    expect((await hub()).name).toBe('test-board-2.local');
  });

  it('says goodbye with a time to live of 0 (RFC 6762, 10.1)', async () => {
    const one = await hub();
    const goodbye = new Promise((done) =>
      client.on('response', ({ answers = [] }: ResponsePacket) => {
        if (
          answers.some((answer) => answer.name === 'test-board.local' && 'ttl' in answer && answer.ttl === 0)
        )
          done(true);
      }),
    );
    announced.splice(0);
    await one.stop();
    expect(await goodbye).toBe(true);
  });
});
