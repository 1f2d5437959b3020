/**
 * `GET /metrics`: figures for a monitoring program, in the text form of Prometheus. Only this computer may ask, unless the hub
 * was started with --metrics. Nothing personal is in them.
 */
import { collectDefaultMetrics, Gauge, Registry } from 'prom-client';
import type { Endpoint } from './endpoints.ts';

/** What is read when somebody asks. */
export type Figures = {
  readonly version: string;
  readonly seq: number;
  readonly connections: Readonly<Record<string, number>>;
  /** Age of the forecast in ms; null: there is none yet. */
  readonly forecastAgeMs: number | null;
  readonly isReadOnly: boolean;
};

const LOOPBACKS = ['127.0.0.1', '::1', '::ffff:127.0.0.1'];

/** `forAll`: other computers may ask, too. */
export function metricsEndpoint(read: () => Figures, forAll: boolean): Endpoint {
  const registry = figures(read);
  return {
    method: 'GET',
    path: '/metrics',
    may: 'anybody',
    answer: async (request, response) => {
      if (!forAll && !LOOPBACKS.includes(request.socket.remoteAddress ?? '')) {
        response.writeHead(404).end();
        return;
      }
      const text = await registry.metrics();
      response.writeHead(200, { 'Content-Type': registry.contentType, 'Cache-Control': 'no-store' });
      response.end(request.method === 'HEAD' ? undefined : text);
    },
  };
}

function figures(read: () => Figures): Registry {
  const registry = new Registry();
  const registers = [registry];
  collectDefaultMetrics({ register: registry });
  new Gauge({
    name: 'aisle_board_info',
    help: 'Always 1; the version is in its label',
    labelNames: ['version'],
    registers,
    collect() {
      this.set({ version: read().version }, 1);
    },
  });
  new Gauge({
    name: 'aisle_board_entries',
    help: 'Number of the last entry on disk',
    registers,
    collect() {
      this.set(read().seq);
    },
  });
  new Gauge({
    name: 'aisle_board_connections',
    help: 'Tablets connected, by where they hang',
    labelNames: ['role'],
    registers,
    collect() {
      for (const [role, count] of Object.entries(read().connections)) this.set({ role }, count);
    },
  });
  new Gauge({
    name: 'aisle_board_forecast_age_seconds',
    help: 'Age of the forecast; NaN before the first',
    registers,
    collect() {
      const { forecastAgeMs } = read();
      this.set(forecastAgeMs === null ? NaN : forecastAgeMs / 1000);
    },
  });
  new Gauge({
    name: 'aisle_board_read_only',
    help: '1 while nothing can be written down',
    registers,
    collect() {
      this.set(read().isReadOnly ? 1 : 0);
    },
  });
  return registry;
}
