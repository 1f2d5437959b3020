/** The weather, and the care of horses: vital signs, grades, farrier, isolation, kit, helmets. The board advises; people decide. */
import type { FarrierState } from '../../care/farrier.ts';
import type { VitalFinding } from '../../care/findings.ts';
import type { HeatIndexBand } from '../../care/heatIndex.ts';
import type { HeatSumBand } from '../../care/heatSum.ts';
import type { HelmetState } from '../../care/helmet.ts';
import { celsiusFromFahrenheit } from '../../care/units.ts';
import type { VitalSign } from '../../care/vitals.ts';
import type { WbgtBand } from '../../care/wbgt.ts';
import type { LessonLevel, WeatherReason } from '../../care/weather.ts';
import type { WorkloadOver } from '../../care/workload.ts';
import { span } from './common.ts';

export const VITAL_WORD: Record<VitalFinding['kind'], string> = {
  pulse: 'Pulso',
  breathing: 'Respiración',
  temperature: 'Temperatura',
  refill: 'Encía rosada otra vez',
};

export function sayTemperature(fahrenheit: number): string {
  return `${fahrenheit.toFixed(1)} °F (${celsiusFromFahrenheit(fahrenheit).toFixed(1)} °C)`;
}

export function sayVital(finding: VitalFinding): string {
  switch (finding.kind) {
    case 'pulse':
    case 'breathing':
      return `${VITAL_WORD[finding.kind]} ${finding.countIn15s * 4} por minuto (${finding.countIn15s} en 15 s)`;
    case 'temperature':
      return `${VITAL_WORD.temperature} ${sayTemperature(finding.fahrenheit)}`;
    case 'refill':
      return `${VITAL_WORD.refill} a los ${finding.seconds} s`;
  }
}

export function sayLameness(grade: number): string {
  return `Cojera ${grade} de 0–5 (grado AAEP)`;
}

export function sayCondition(score: number): string {
  return `Condición corporal ${score} de 1–9 (escala Henneke)`;
}

export const LAMENESS_WORD: readonly string[] = [
  'no se ve cojera',
  'difícil de ver, no siempre',
  'difícil de ver al paso o al trote recto',
  'siempre al trote',
  'evidente al paso',
  'casi no apoya, o no puede moverse',
];

export const CONDITION_WORD: readonly string[] = [
  'pobre',
  'muy delgado',
  'delgado',
  'moderadamente delgado',
  'moderado',
  'moderadamente carnoso',
  'carnoso',
  'gordo',
  'extremadamente gordo',
];

export const VITAL_JUDGED: Record<VitalSign['kind'], string> = {
  within: 'dentro del rango del establo',
  below: 'por debajo del rango del establo',
  above: 'por encima del rango del establo',
};

export const VITAL_CALL: Record<VitalSign['call'], string> = {
  nobody: '',
  instructor: 'Avise al instructor. Lo que significa lo dice el veterinario.',
  vet: 'Llame al veterinario ahora.',
};

export const VITALS = {
  title: (horse: string) => `${horse}: signos vitales`,
  open: 'Signos vitales',
  rest: 'En reposo, como se le enseñó. Si no está seguro o al caballo le molesta, déjelo y dígalo.',
  in15s: 'en 15 s',
  perMinute: (rate: number) => `${rate} por minuto`,
  range: (low: number, high: number) => `rango del establo ${low}–${high}`,
  upTo: (high: number) => `rango del establo hasta ${high} s`,
  notCounted: 'sin contar',
  count: 'Contar',
  leaveOut: 'Omitir',
  seconds: (count: number) => `${count} s`,
  keep: 'Guardar',
  nothing: 'Todavía no se contó nada.',
  lameness: 'Cojera, grado AAEP 0–5',
  condition: 'Condición corporal, escala Henneke 1–9',
  qualified: 'Los grados los da una persona calificada; otras escalas no van aquí.',
  notGraded: 'Sin grado',
  whoCounted: '¿Quién contó?',
  whoGraded: '¿Quién dio el grado?',
};

export const LESSON_LEVEL: Record<LessonLevel, string> = {
  'as-planned': 'Clases como estaban previstas',
  lighter: 'Trabajo más ligero',
  unmounted: 'Solo sin montar',
  'no-work': 'Sin trabajo',
};

export const WEATHER_WHY: Record<WeatherReason['code'], string> = {
  'heat-sum-reduced': 'los caballos se enfrían menos',
  'heat-sum-greatly-reduced': 'los caballos se enfrían mal',
  'heat-sum-no-work': 'los caballos no pueden enfriarse',
  humid: 'con esta humedad el sudor casi no enfría',
  'mostly-humidity': 'sobre todo humedad: peor de lo que dice la suma',
  'people-caution': 'personas: agua y sombra',
  'people-extreme-caution': 'calor para las personas',
  'people-danger': 'calor peligroso para las personas',
  'people-extreme-danger': 'calor extremo para las personas',
  'air-too-hot': 'aire por encima del límite del establo',
  'felt-too-cold': 'se siente más frío que el límite del establo',
  'walk-only-cold': 'aire frío: solo al paso',
  'wbgt-moderate': 'globo y bulbo húmedo: moderado',
  'wbgt-high': 'globo y bulbo húmedo: alto',
};

export const HEAT_SUM_BAND: Record<HeatSumBand, string> = {
  fine: 'bien',
  reduced: 'se enfría menos',
  'greatly-reduced': 'se enfría mucho menos',
  'no-work': 'sin trabajo',
};

export const HEAT_INDEX_BAND: Record<HeatIndexBand, string> = {
  none: 'sin franja',
  caution: 'precaución',
  'extreme-caution': 'precaución extrema',
  danger: 'peligro',
  'extreme-danger': 'peligro extremo',
};

export const WBGT_BAND: Record<WbgtBand, string> = { low: 'bajo', moderate: 'moderado', high: 'alto' };

export function sayWeatherLine(level: LessonLevel, why: WeatherReason['code'], isOld: boolean): string {
  const old = isOld ? ' (lectura vieja)' : '';
  return `Clima: ${LESSON_LEVEL[level].toLowerCase()}, ${WEATHER_WHY[why]}${old}. Decide el instructor.`;
}

export const WEATHER = {
  title: 'Clima',
  none: 'Hoy nadie ha anotado el clima.',
  typeIn: 'Anotar el clima',
  again: 'Anotarlo de nuevo',
  air: 'Aire, a la sombra',
  humidity: 'Humedad',
  wind: 'Viento',
  wbgt: 'Globo y bulbo húmedo',
  notRead: 'sin leer',
  leaveOut: 'Omitir',
  putIn: 'Anotar',
  whoRead: '¿Quién lo leyó?',
  readBy: (who: string, when: string) => `${who}, ${when}`,
  age: (minutes: number) => (minutes === 0 ? 'ahora mismo' : `hace ${span(minutes)}`),
  old: (minutes: number) => `Lectura vieja: se tomó hace ${span(minutes)}. Tome otra.`,
  heatSum: 'Suma de calor del caballo',
  heatIndex: 'Índice de calor, personas',
  windChill: 'Sensación por viento, personas',
  asAir: 'como el aire',
  noWind: 'no se leyó el viento',
  measured: 'medido',
  reckoned: 'calculado con aire y humedad: solo cuenta el medido',
  source: (source: string) => `Fuente: ${source}`,
  asks: 'Lo que piden las franjas del establo',
  nothing: 'Ninguna franja pide nada.',
  decide: 'El tablero aconseja. Deciden las reglas del centro y el instructor.',
};

export const CARE = {
  panel: 'Cuidado',
  notes: 'Por atender',
  noNotes: 'Hoy no hay nada pendiente de herrador, trabajo, aislamiento ni cascos de montar.',
  of: (horse: string) => `${horse}: herrador, piel, condición`,
  open: 'Herrador, piel, condición',
  farrier: 'Herrador',
  farrierUnknown: 'No hay visita anotada.',
  farrierCame: 'El herrador vino hoy: ¿quién lo dice?',
  kit: 'Equipo de limpieza propio',
  kitOf: (kit: string) => `Equipo propio: ${kit}`,
  noKit: 'No tiene equipo propio anotado.',
  isolate: 'Apartarlo por la piel: ¿quién decide?',
  isolateWhy: '¿Por qué? Qué se vio y dónde.',
  isolationEnds: 'Ya no apartado: ¿quién decide?',
  isolated: 'Apartado por la piel',
  isolatedWhy: (why: string, who: string, when: string) => `${why} · ${who}, ${when}`,
  vetSays: 'Qué es y cuándo termina lo dice el veterinario.',
  conditionNone: 'Todavía sin puntuar.',
  conditionSeen: (who: string, when: string) => `${who}, ${when}`,
  conditionPick: 'Nueva puntuación',
  bothWords: 'Espera al veterinario y al herrador: hace falta la palabra de cada uno.',
  vetWord: '¿Qué dijo el veterinario?',
  farrierWord: '¿Qué dijo el herrador?',
};

function days(count: number): string {
  return count === 1 ? '1 día' : `${count} días`;
}

export function sayFarrier({ kind, daysSince, daysUntilDue }: FarrierState): string {
  const since = daysSince === 0 ? 'Herrador hoy' : `Herrador hace ${days(daysSince)}`;
  switch (kind) {
    case 'fine':
      return since;
    case 'due-soon':
      return `${since}, le toca en ${days(daysUntilDue)}`;
    case 'due':
      return daysUntilDue === 0 ? `${since}, le toca hoy` : `${since}, atrasado ${days(-daysUntilDue)}`;
  }
}

export function sayOverWork({ code, figure, limit }: WorkloadOver): string {
  switch (code) {
    case 'minutes-per-day':
      return `${span(figure)} de trabajo hoy, el límite del establo es ${span(limit)}`;
    case 'minutes-in-a-row':
      return `${span(figure)} sin descanso, el límite del establo es ${span(limit)}`;
    case 'lessons-per-day':
      return `${figure} clases hoy, el límite del establo es ${limit}`;
    case 'days-in-a-row':
      return `${figure} días seguidos con hoy, el límite del establo es ${limit}`;
    case 'days-per-week':
      return `${figure} días de siete con hoy, el límite del establo es ${limit}`;
  }
}

export function sayHelmet(state: HelmetState): string {
  if (state.kind === 'replace') {
    return state.because === 'knock'
      ? 'El casco de montar se golpeó en una caída: cámbielo'
      : 'El casco de montar es demasiado viejo: cámbielo';
  }
  return state.kind === 'due-soon'
    ? `El casco de montar sirve ${days(state.daysLeft)} más`
    : 'El casco de montar está en uso';
}
