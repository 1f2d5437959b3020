/** What the hub says of itself: log files that do not fill the disk, and figures for a monitoring program. */
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openLog } from '../../hub/log.ts';
import type { Figures } from '../../hub/figures.ts';
import { metricsEndpoint } from '../../hub/metrics.ts';

let folder: string;
beforeEach(() => (folder = mkdtempSync(join(tmpdir(), 'aisle-board-log-'))));
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const files = (): string[] => readdirSync(join(folder, 'log'));

describe('the log', () => {
  it('has each line with its time, as JSON, in files for the hub’s own user', async () => {
    const said: string[] = [];
    const log = await openLog(folder, (line) => said.push(line));
    log.line('The disk can be written again.');
    await log.close();
    expect(said).toEqual(['The disk can be written again.']);
    const [file] = files();
    const kept = JSON.parse(readFileSync(join(folder, 'log', file!), 'utf8')) as {
      time: string;
      msg: string;
    };
    expect(kept.msg).toBe('The disk can be written again.');
    expect(Math.abs(Date.parse(kept.time) - Date.now())).toBeLessThan(60_000);
    expect(statSync(join(folder, 'log')).mode & 0o077).toBe(0);
  });

  it('lets go of old files: 20 MB said come to no more than a few', async () => {
    const log = await openLog(folder, () => {});
    const line = 'x'.repeat(100_000);
    for (let i = 0; i < 200; i += 1) {
      log.line(line);
      await new Promise((next) => setImmediate(next));
    }
    await log.close();
    // One is written to and four are kept; one more may be on its way out.
    expect(files().length).toBeLessThanOrEqual(6);
    const bytes = files().reduce((sum, file) => sum + statSync(join(folder, 'log', file)).size, 0);
    expect(bytes).toBeGreaterThan(1_000_000);
    expect(bytes).toBeLessThan(10_000_000);
  });

  it('that cannot be written is said once and stops nothing', async () => {
    writeFileSync(join(folder, 'log'), 'in the way');
    const said: string[] = [];
    const log = await openLog(folder, (line) => said.push(line));
    log.line('still here');
    await log.close();
    expect(said[0]).toMatch(/Nothing is logged/);
    expect(said[1]).toBe('still here');
  });
});

describe('/metrics', () => {
  const FIGURES: Figures = {
    version: '1.2.3',
    seq: 41,
    connections: { aisle: 3, door: 1, coordinator: 2, waiting: 0 },
    forecastAgeMs: 2500,
    isReadOnly: true,
  };
  const NOBODY = { is: 'nobody' } as const;

  async function ask(forAll: boolean, from: string | null): Promise<Response> {
    const endpoint = metricsEndpoint(() => FIGURES, forAll);
    const server = createServer((request: IncomingMessage, response: ServerResponse) => {
      if (from !== null) Object.defineProperty(request.socket, 'remoteAddress', { value: from });
      void endpoint.answer(request, response, NOBODY);
    });
    await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
    try {
      return await fetch(`http://127.0.0.1:${(server.address() as AddressInfo).port}/metrics`);
    } finally {
      server.close();
    }
  }

  it('answers this computer, each line in the text form that Prometheus reads (exposition format 0.0.4)', async () => {
    const answer = await ask(false, null);
    expect(answer.headers.get('content-type')).toMatch(/^text\/plain; version=0\.0\.4/);
    const text = await answer.text();
    for (const line of text.trim().split('\n')) {
      if (line !== '')
        expect(line).toMatch(
          /^(# (HELP|TYPE) \w+ .*|[a-z_:][\w:]*(\{\w+="[^"]*"(,\w+="[^"]*")*\})? (NaN|[+-]Inf|[-+.\de]+))$/i,
        );
    }
    expect(text).toContain('aisle_board_entries 41\n');
    expect(text).toContain('aisle_board_connections{role="aisle"} 3\n');
    expect(text).toContain('aisle_board_forecast_age_seconds 2.5\n');
    expect(text).toContain('aisle_board_read_only 1\n');
    expect(text).toContain('aisle_board_info{version="1.2.3"} 1\n');
    expect(text).toMatch(/process_resident_memory_bytes \d+/);
  });

  it('is not there for other computers, unless asked for', async () => {
    expect((await ask(false, '192.168.1.9')).status).toBe(404);
    expect((await ask(true, '192.168.1.9')).status).toBe(200);
  });
});
