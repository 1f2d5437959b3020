/** Heat index for people in shade and light wind: riders, volunteers, instructors. It says nothing of horses. */
import { from, reaches } from './bands.ts';
import type { BandEdge } from './bandEdge.ts';
import { badFigure, cannotSay, type BadFigure, type CannotSay, type Sourced } from './figures.ts';

/** Range in which a thermometer on a barn is believed, °F. */
export const AIR_F = [-80, 130] as const;
export const HUMIDITY_PERCENT = [0, 100] as const;
/** Hottest row of the printed table, °F. */
const CHART_TOP_F = 110;
/** Below this the index is the air temperature (from memory, NWS practice), °F. */
const COOL_F = 40;

type HeatIndexBranch = 'air' | 'simple' | 'regression' | 'dry' | 'humid';

export interface HeatIndex {
  readonly kind: 'index';
  readonly fahrenheit: number;
  readonly branch: HeatIndexBranch;
  /** Hotter than the printed table: an extrapolation. */
  readonly beyondChart: boolean;
}

/**
 * NWS heat index. Air temperature in °F, relative humidity in percent; °F back.
 *
 * Order: the simple form first; if it gives 80 or more, the regression with its dry or humid adjustment.
 * The simple form as printed holds the average with the air temperature already, so it is averaged once; a
 * second averaging, as the page's text can be read, moves results below 80 °F by less than 0.3 °F.
 * Source: NOAA Weather Prediction Center, "The Heat Index Equation" (Rothfusz, NWS SR 90-23, 1990).
 * Refused outside -80 to 130 °F and 0 to 100 %.
 */
export function heatIndexF(airF: number, humidityPercent: number): HeatIndex | CannotSay<BadFigure> {
  const bad =
    badFigure('airF', airF, ...AIR_F) ?? badFigure('humidityPercent', humidityPercent, ...HUMIDITY_PERCENT);
  if (bad) return cannotSay(bad);
  const index = (fahrenheit: number, branch: HeatIndexBranch): HeatIndex => ({
    kind: 'index',
    fahrenheit,
    branch,
    beyondChart: airF > CHART_TOP_F,
  });

  if (airF < COOL_F) return index(airF, 'air');
  const simple = simpleHeatIndexF(airF, humidityPercent);
  if (simple < 80) return index(simple, 'simple');
  const raw = rothfuszF(airF, humidityPercent);
  if (humidityPercent < 13 && airF >= 80 && airF <= 112) {
    const less = ((13 - humidityPercent) / 4) * Math.sqrt((17 - Math.abs(airF - 95)) / 17);
    return index(raw - less, 'dry');
  }
  if (humidityPercent > 85 && airF >= 80 && airF <= 87) {
    return index(raw + ((humidityPercent - 85) / 10) * ((87 - airF) / 5), 'humid');
  }
  return index(raw, 'regression');
}

/** Rothfusz regression alone, °F; the printed NWS table is made with this, without adjustments. */
export function rothfuszF(airF: number, humidityPercent: number): number {
  const t = airF;
  const r = humidityPercent;
  return (
    -42.379 +
    2.04901523 * t +
    10.14333127 * r -
    0.22475541 * t * r -
    0.00683783 * t * t -
    0.05481717 * r * r +
    0.00122874 * t * t * r +
    0.00085282 * t * r * r -
    0.00000199 * t * t * r * r
  );
}

/** Form for mild air, consistent with Steadman's table, °F. */
function simpleHeatIndexF(airF: number, humidityPercent: number): number {
  return 0.5 * (airF + 61.0 + (airF - 68.0) * 1.2 + humidityPercent * 0.094);
}

export type HeatIndexBand = 'none' | 'caution' | 'extreme-caution' | 'danger' | 'extreme-danger';

/** Two sets of bounds are in circulation. Edges in °F of heat index. */
const HEAT_INDEX_BANDS = {
  newer: {
    edges: { caution: from(80), extremeCaution: from(90), danger: from(103), extremeDanger: from(125) },
    source: 'NWS classification, newer bounds (read in a secondary copy)',
    grade: 'B',
  },
  older: {
    edges: { caution: from(80), extremeCaution: from(90), danger: from(105), extremeDanger: from(130) },
    source: 'NWS Tulsa, heat index chart',
    grade: 'A',
  },
} as const satisfies Record<
  string,
  Sourced & {
    readonly edges: Readonly<Record<'caution' | 'extremeCaution' | 'danger' | 'extremeDanger', BandEdge>>;
  }
>;
type HeatIndexBandSet = keyof typeof HEAT_INDEX_BANDS;

/** The band a heat index in °F falls in. */
export function heatIndexBand(set: HeatIndexBandSet, indexF: number): HeatIndexBand {
  const { edges } = HEAT_INDEX_BANDS[set];
  if (reaches(edges.extremeDanger, indexF)) return 'extreme-danger';
  if (reaches(edges.danger, indexF)) return 'danger';
  if (reaches(edges.extremeCaution, indexF)) return 'extreme-caution';
  if (reaches(edges.caution, indexF)) return 'caution';
  return 'none';
}
