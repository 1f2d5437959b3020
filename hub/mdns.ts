/**
 * The hub found by name on the barn's network: `aisle-board.local` by multicast DNS (RFC 6762), and as a web service that can be
 * browsed for (RFC 6763). Where another hub has the name already, this one takes the next.
 */
import { networkInterfaces } from 'node:os';
import makeMdns, { type MulticastDNS, type QueryPacket, type ResponsePacket } from 'multicast-dns';

/** RFC 6762, 10: records that name a host. */
const TTL_S = 120;
/** RFC 6762, 8.1: three probes, 250 ms apart. */
const PROBES = 3;
const PROBE_MS = 250;
/** RFC 6762, 8.3: at least two announcements, a second apart. */
const ANNOUNCE_AGAIN_MS = 1000;
/** All types of record; the library's types do not know it. */
const ANY = 'ANY' as unknown as 'A';
const SERVICE = '_http._tcp.local';
const SERVICES = '_services._dns-sd._udp.local';

export type Announced = {
  /** The name that was free, e.g. `aisle-board.local`. */
  readonly name: string;
  stop(): Promise<void>;
};

export type Announcing = {
  /** The name wished for, without `.local`. */
  readonly wished: string;
  readonly port: number;
  readonly isTls: boolean;
  readonly log: (line: string) => void;
  /** Address of the one interface to use; default all. */
  readonly on?: string;
};

type Answer = NonNullable<ResponsePacket['answers']>[number];

/** Takes a name and answers for it until stopped. Null where the network has no multicast: then addresses must do. */
export async function announce(how: Announcing): Promise<Announced | null> {
  const mdns = await open(how.on);
  if (!mdns) return null;
  mdns.on('error', (error: Error) => how.log(`The hub cannot be found by name just now (${error.message}).`));
  const label = await freeLabel(mdns, how.wished);
  const records = (ttl: number): Answer[] => recordsOf(label, how, ttl);
  const answerQuery = ({ questions = [] }: QueryPacket): void => {
    const asked = records(TTL_S).filter((record) =>
      questions.some(({ name, type }) => sameName(name, record.name) && [record.type, 'ANY'].includes(type)),
    );
    if (asked.length > 0) mdns.respond({ answers: asked, additionals: records(TTL_S) });
  };
  mdns.on('query', answerQuery);
  mdns.respond({ answers: records(TTL_S) });
  const again = setTimeout(() => mdns.respond({ answers: records(TTL_S) }), ANNOUNCE_AGAIN_MS);
  return {
    name: `${label}.local`,
    stop: () =>
      new Promise((done) => {
        clearTimeout(again);
        mdns.off('query', answerQuery);
        // RFC 6762, 10.1: a time to live of 0 says goodbye.
        mdns.respond({ answers: records(0) }, () => mdns.destroy(() => done()));
      }),
  };
}

function open(on: string | undefined): Promise<MulticastDNS | null> {
  return new Promise((done) => {
    const mdns = makeMdns(on === undefined ? {} : { interface: on, bind: '0.0.0.0' });
    const failed = (): void => {
      mdns.destroy();
      done(null);
    };
    mdns.once('error', failed);
    mdns.once('ready', () => {
      mdns.off('error', failed);
      done(mdns);
    });
  });
}

/** The wished name, or with -2, -3 … behind it where somebody answers for it. */
async function freeLabel(mdns: MulticastDNS, wished: string): Promise<string> {
  for (let count = 1; ; count += 1) {
    const label = count === 1 ? wished : `${wished}-${count}`;
    if (!(await isTaken(mdns, `${label}.local`))) return label;
  }
}

function isTaken(mdns: MulticastDNS, name: string): Promise<boolean> {
  return new Promise((done) => {
    let probes = 0;
    const finish = (taken: boolean): void => {
      clearInterval(timer);
      mdns.off('response', heard);
      done(taken);
    };
    const heard = ({ answers = [] }: ResponsePacket): void => {
      if (answers.some((one) => sameName(one.name, name) && (one.type === 'A' || one.type === 'AAAA')))
        finish(true);
    };
    const probe = (): void => {
      probes += 1;
      if (probes > PROBES) finish(false);
      else mdns.query([{ name, type: ANY }]);
    };
    const timer = setInterval(probe, PROBE_MS);
    mdns.on('response', heard);
    probe();
  });
}

/** All that is said of this hub; addresses are looked up anew, since a router may give others. */
function recordsOf(label: string, { port, isTls, on }: Announcing, ttl: number): Answer[] {
  const host = `${label}.local`;
  const instance = `${label}.${SERVICE}`;
  return [
    ...ownAddresses(on).map(({ family, address }): Answer => ({
      name: host,
      type: family === 'IPv4' ? 'A' : 'AAAA',
      ttl,
      flush: true,
      data: address,
    })),
    { name: SERVICES, type: 'PTR', ttl, data: SERVICE },
    { name: SERVICE, type: 'PTR', ttl, data: instance },
    { name: instance, type: 'SRV', ttl, flush: true, data: { port, target: host, priority: 0, weight: 0 } },
    { name: instance, type: 'TXT', ttl, flush: true, data: ['path=/', `tls=${isTls ? 1 : 0}`] },
  ];
}

function ownAddresses(on: string | undefined): { family: string; address: string }[] {
  const all = Object.values(networkInterfaces()).flatMap((one) => one ?? []);
  return all.filter(({ internal, address, scopeid }) =>
    on === undefined ? !internal && !scopeid : address === on,
  );
}

function sameName(one: string, other: string): boolean {
  return one.toLowerCase() === other.toLowerCase();
}
