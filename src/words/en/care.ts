/** Weather and the care of horses: vital signs, grades, farrier, isolation, kit, helmets. The board advises; people decide. */
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
  pulse: 'Pulse',
  breathing: 'Breathing',
  temperature: 'Temperature',
  refill: 'Gum pink again',
};

/** In both units, so that nobody takes one for the other. */
export function sayTemperature(fahrenheit: number): string {
  return `${fahrenheit.toFixed(1)} °F (${celsiusFromFahrenheit(fahrenheit).toFixed(1)} °C)`;
}

export function sayVital(finding: VitalFinding): string {
  switch (finding.kind) {
    case 'pulse':
    case 'breathing':
      return `${VITAL_WORD[finding.kind]} ${finding.countIn15s * 4} a minute (${finding.countIn15s} in 15 s)`;
    case 'temperature':
      return `${VITAL_WORD.temperature} ${sayTemperature(finding.fahrenheit)}`;
    case 'refill':
      return `${VITAL_WORD.refill} after ${finding.seconds} s`;
  }
}

/** The scale's name always stands beside its number. */
export function sayLameness(grade: number): string {
  return `Lameness ${grade} of 0–5 (AAEP grade)`;
}

export function sayCondition(score: number): string {
  return `Body condition ${score} of 1–9 (Henneke score)`;
}

export const LAMENESS_WORD: readonly string[] = [
  'no lameness seen',
  'hard to see, not each time',
  'hard to see at walk or straight trot',
  'each time at trot',
  'plain at walk',
  'hardly takes weight, or cannot move',
];

export const CONDITION_WORD: readonly string[] = [
  'poor',
  'very thin',
  'thin',
  'moderately thin',
  'moderate',
  'moderately fleshy',
  'fleshy',
  'fat',
  'extremely fat',
];

export const VITAL_JUDGED: Record<VitalSign['kind'], string> = {
  within: 'within the barn’s range',
  below: 'below the barn’s range',
  above: 'above the barn’s range',
};

export const VITAL_CALL: Record<VitalSign['call'], string> = {
  nobody: '',
  instructor: 'Tell the instructor. What it means is for the vet to say.',
  vet: 'Call the vet now.',
};

export const VITALS = {
  title: (horse: string) => `${horse}: vital signs`,
  open: 'Vital signs',
  rest: 'At rest, as somebody shown how to does it. Not sure, or the horse minds: leave it and say so.',
  in15s: 'in 15 s',
  perMinute: (rate: number) => `${rate} a minute`,
  range: (low: number, high: number) => `barn’s range ${low}–${high}`,
  upTo: (high: number) => `barn’s range up to ${high} s`,
  notCounted: 'not counted',
  count: 'Count',
  leaveOut: 'Leave out',
  seconds: (count: number) => `${count} s`,
  keep: 'Keep',
  nothing: 'Nothing counted yet.',
  lameness: 'Lameness, AAEP grade 0–5',
  condition: 'Body condition, Henneke score 1–9',
  qualified: 'Grades are given by a person qualified to; other scales do not go in here.',
  notGraded: 'Not graded',
  whoCounted: 'Who counted?',
  whoGraded: 'Who graded it?',
} as const;

export const LESSON_LEVEL: Record<LessonLevel, string> = {
  'as-planned': 'Lessons as planned',
  lighter: 'Lighter work',
  unmounted: 'Unmounted only',
  'no-work': 'No work',
};

export const WEATHER_WHY: Record<WeatherReason['code'], string> = {
  'heat-sum-reduced': 'horses cool less well',
  'heat-sum-greatly-reduced': 'horses cool badly',
  'heat-sum-no-work': 'horses cannot cool',
  humid: 'sweat hardly cools in this damp air',
  'mostly-humidity': 'mostly damp: worse than the sum says',
  'people-caution': 'people: drink, shade',
  'people-extreme-caution': 'hot for people',
  'people-danger': 'dangerous heat for people',
  'people-extreme-danger': 'extreme heat for people',
  'air-too-hot': 'air over the barn’s limit',
  'felt-too-cold': 'feels colder than the barn’s limit',
  'walk-only-cold': 'cold air: walk only',
  'wbgt-moderate': 'wet bulb globe: moderate',
  'wbgt-high': 'wet bulb globe: high',
};

export const HEAT_SUM_BAND: Record<HeatSumBand, string> = {
  fine: 'fine',
  reduced: 'cooling reduced',
  'greatly-reduced': 'cooling greatly reduced',
  'no-work': 'no work',
};

export const HEAT_INDEX_BAND: Record<HeatIndexBand, string> = {
  none: 'no band',
  caution: 'caution',
  'extreme-caution': 'extreme caution',
  danger: 'danger',
  'extreme-danger': 'extreme danger',
};

export const WBGT_BAND: Record<WbgtBand, string> = { low: 'low', moderate: 'moderate', high: 'high' };

/** On door and aisle, when a band asks for something. */
export function sayWeatherLine(level: LessonLevel, why: WeatherReason['code'], isOld: boolean): string {
  const old = isOld ? ' (old reading)' : '';
  return `Weather: ${LESSON_LEVEL[level].toLowerCase()}, ${WEATHER_WHY[why]}${old}. The instructor decides.`;
}

export const WEATHER = {
  title: 'Weather',
  none: 'Nobody has read the weather today.',
  typeIn: 'Type in the weather',
  again: 'Read it again',
  air: 'Air, in the shade',
  humidity: 'Humidity',
  wind: 'Wind',
  wbgt: 'Wet bulb globe',
  notRead: 'not read',
  leaveOut: 'Leave out',
  putIn: 'Put in',
  whoRead: 'Who read it?',
  readBy: (who: string, when: string) => `${who}, ${when}`,
  age: (minutes: number) => (minutes === 0 ? 'just now' : `${span(minutes)} ago`),
  old: (minutes: number) => `Old: read ${span(minutes)} ago. Read it again.`,
  heatSum: 'Horse heat sum',
  heatIndex: 'Heat index, people',
  windChill: 'Wind chill, people',
  asAir: 'as the air',
  noWind: 'no wind was read',
  measured: 'measured',
  reckoned: 'reckoned from air and humidity: only a measured one counts',
  source: (source: string) => `Source: ${source}`,
  asks: 'What the barn’s bands ask for',
  nothing: 'No band asks for anything.',
  decide: 'The board advises. The centre’s own rules and the instructor decide.',
} as const;

export const CARE = {
  panel: 'Care',
  notes: 'To see to',
  noNotes: 'Nothing of farrier, work, isolation or helmets asks for anything today.',
  of: (horse: string) => `${horse}: farrier, skin, condition`,
  open: 'Farrier, skin, condition',
  farrier: 'Farrier',
  farrierUnknown: 'No visit is on record.',
  farrierCame: 'The farrier was here today: who says so?',
  kit: 'Own grooming kit',
  kitOf: (kit: string) => `Own kit: ${kit}`,
  noKit: 'No kit of its own is on record.',
  isolate: 'Keep apart for its skin: who decides?',
  isolateWhy: 'Why? What was seen, and where.',
  isolationEnds: 'No longer apart: who decides?',
  isolated: 'Kept apart for its skin',
  isolatedWhy: (why: string, who: string, when: string) => `${why} · ${who}, ${when}`,
  vetSays: 'What it is, and when it is over, is for the vet to say.',
  conditionNone: 'Not scored yet.',
  conditionSeen: (who: string, when: string) => `${who}, ${when}`,
  conditionPick: 'A new score',
  bothWords: 'Vet and farrier both hold it: the word of each is needed.',
  vetWord: 'What did the vet say?',
  farrierWord: 'What did the farrier say?',
} as const;

function days(count: number): string {
  return count === 1 ? '1 day' : `${count} days`;
}

export function sayFarrier({ kind, daysSince, daysUntilDue }: FarrierState): string {
  const since = daysSince === 0 ? 'Farrier today' : `Farrier ${days(daysSince)} ago`;
  switch (kind) {
    case 'fine':
      return since;
    case 'due-soon':
      return `${since}, due in ${days(daysUntilDue)}`;
    case 'due':
      return daysUntilDue === 0 ? `${since}, due today` : `${since}, overdue by ${days(-daysUntilDue)}`;
  }
}

export function sayOverWork({ code, figure, limit }: WorkloadOver): string {
  switch (code) {
    case 'minutes-per-day':
      return `${span(figure)} of work today, the barn’s limit is ${span(limit)}`;
    case 'minutes-in-a-row':
      return `${span(figure)} without a break, the barn’s limit is ${span(limit)}`;
    case 'lessons-per-day':
      return `${figure} lessons today, the barn’s limit is ${limit}`;
    case 'days-in-a-row':
      return `${figure} days in a row with today, the barn’s limit is ${limit}`;
    case 'days-per-week':
      return `${figure} days of seven with today, the barn’s limit is ${limit}`;
  }
}

export function sayHelmet(state: HelmetState): string {
  if (state.kind === 'replace') {
    return state.because === 'knock'
      ? 'Helmet was hit in a fall: replace it'
      : 'Helmet is too old: replace it';
  }
  return state.kind === 'due-soon' ? `Helmet serves ${days(state.daysLeft)} more` : 'Helmet is in use';
}
