/** The hub's figures as gauges for a monitoring program. */
import { collectDefaultMetrics, Gauge, Registry } from 'prom-client';

/** What is read when somebody asks. */
export type Figures = {
  readonly version: string;
  readonly seq: number;
  readonly connections: Readonly<Record<string, number>>;
  /** Age of the forecast in ms; null: there is none yet. */
  readonly forecastAgeMs: number | null;
  readonly isReadOnly: boolean;
};

export function registryOf(read: () => Figures): Registry {
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
