/** The real barn's hub as a program: its command line, its certificate, its name on the network, its log. */
import { hostname } from 'node:os';
import { join } from 'node:path';
import { certifiedNames, isOnlyHere } from './addresses.ts';
import { readArguments, type Arguments } from './arguments.ts';
import { consoleCode } from './gate/consoleCode.ts';
import { codeOnTerminal, greeting, trustLines } from './greeting.ts';
import { openLog } from './log.ts';
import { openHub, type Hub, type HubOptions } from './main.ts';
import { announce } from './mdns.ts';
import { watchOver } from './service/watchdog.ts';
import { runCommandLine } from './startError.ts';
import type { Certificates } from './tls/certificates.ts';
import { closeWhenStopped } from './untilStopped.ts';

/** What the hub is called on the barn's network, unless another one is called so already. */
const WISHED_NAME = 'aisle-board';

/** How often is looked whether the certificate must be renewed: addresses change, time passes. */
const CERTIFY_EVERY_MS = 10 * 60 * 1000;

/** Runs the hub until Ctrl-C or SIGTERM. Throws StartError when it cannot. */
export async function runHub(
  args: readonly string[],
  more: Pick<HubOptions, 'open' | 'limits'> = {},
): Promise<void> {
  const asked = readArguments(args);
  const { port, data, host, names } = asked;
  const certificates = await certificatesFor(asked);
  let say = (line: string): void => console.error(line);
  const hub = await openHub({
    port,
    host,
    names,
    folder: join(data, 'barn'),
    showCode: consoleCode({ data, terminal: codeOnTerminal(), log: (line) => say(line) }),
    log: (line) => say(line),
    openMetrics: asked.metrics,
    ...(certificates && { certificates }),
    ...more,
  });
  // Only now: a start that is refused leaves nothing behind.
  const log = await openLog(data);
  say = log.line;
  const goQuiet = isOnlyHere(host) ? async () => {} : beFound(hub, asked, log.line);
  const stopWatch = watchOver(process.env);
  closeWhenStopped(async () => {
    stopWatch();
    await goQuiet();
    await hub.close();
    await log.close();
  });
  // Whoever reads this may stop it at once, and it ends as it should.
  const scheme = certificates ? 'https' : 'http';
  console.log(
    greeting(hub.barnName(), `${scheme}://localhost:${hub.port}`, hub.addresses, process.stdout.isTTY),
  );
  if (certificates?.shown.print) console.log(trustLines(hub.addresses, certificates.shown.print));
}

async function certificatesFor({ tls, data, names }: Arguments): Promise<Certificates | null> {
  if (tls === null) return null;
  // Loaded where it is asked for: what makes certificates takes some 10 MB.
  const { givenCertificates, ownCertificates } = await import('./tls/certificates.ts');
  if (tls !== 'own') return givenCertificates(tls.cert, tls.key);
  const wished = certifiedNames(`${WISHED_NAME}.local`, names);
  return ownCertificates(join(data, 'tls'), hostname(), wished, Date.now());
}

/** Answers to a name on the network, and keeps the certificate good. Answers with how to stop both. */
function beFound(hub: Hub, { names, tls }: Arguments, log: (line: string) => void): () => Promise<void> {
  const found = announce({ wished: WISHED_NAME, port: hub.port, isTls: tls !== null, log }).catch(() => null);
  const certify = async (): Promise<void> => {
    const name = (await found)?.name ?? `${WISHED_NAME}.local`;
    await hub.certify(certifiedNames(name, names));
  };
  const again = (): void =>
    void certify().catch((error: unknown) => log(`The certificate was not renewed: ${String(error)}`));
  const timer = setInterval(again, CERTIFY_EVERY_MS);
  again();
  void found.then((one) => log(one ? `Also found as ${one.name}.` : 'Not found by name on this network.'));
  return async () => {
    clearInterval(timer);
    await (await found)?.stop();
  };
}

if (import.meta.main) await runCommandLine(runHub);
