/** The day’s end. */
import type { AlertKind } from '../../day/alerts/alert.ts';
import type { OnTime } from '../../ledger/lessons.ts';
import { counted } from './common.ts';

export const END_PAGE = 'Day’s end · Aisle Board';

export const END = {
  title: 'Day’s end',
  day: 'Day',
  week: 'Week',
  month: 'Month',
  term: 'Term',
  from: 'From',
  until: 'To',
  print: 'Print',
  csv: 'CSV file',
  csvOf: (table: string) => `CSV file: ${table}`,
  loading: 'Adding up…',
  failed: 'The hub could not add it up just now. Try again.',
  nothing: 'There is no record of these dates.',
  damaged: (files: string) => `Not in these figures, because they cannot be read: ${files}.`,
  oldRules: (dates: string) => `Judged by today’s rules, as theirs were not kept: ${dates}.`,
  summary: (days: number, lessons: number, onTime: number, late: number, unknown: number) =>
    `${counted(days, 'day', 'days')}: of ${counted(lessons, 'lesson', 'lessons')} held ${onTime} on time, ${late} late, ${unknown} not known.`,
  alerts: (count: number, anHour: string, worst: number) =>
    `${counted(count, 'call', 'calls')} for attention: ${anHour} an hour, ${worst} in the worst hour.`,
  alertsMean: (anHour: number, worst: number) =>
    `Somebody who does nothing else can take about ${anHour} an hour, and ${worst} in the worst (EEMUA 191). In a barn, aim well below.`,
  alertsFlood: (count: number) => `${count} in ten minutes: more than anybody can take in.`,
  spare: 'Spare when each stage was finished',
  spareNote: 'Minutes left to the needed-by time, by the barn’s own stage minutes; below zero: too late.',
  load: 'Minutes in the arena per horse',
  busiest: 'Longest day of each horse, minutes in the arena',
  limit: (minutes: number) => `Dashed: the barn’s limit, ${minutes} min a day.`,
  noLimit: 'The barn’s rules set no limit.',
  held: { day: 'Lessons held, day by day', week: 'Lessons held, week by week' },
  lateDark: 'Dark: of them late.',
  hours: { day: 'Volunteers’ hours, day by day', week: 'Volunteers’ hours, week by week' },
  correct: 'Put right',
  who: 'Volunteer',
  stay: 'Which stay',
  newStay: 'One nobody tapped',
  why: 'Why',
  save: 'Add the correction',
  saved: 'Added. What was tapped stays beside it.',
  by: 'Your name',
  wasDone: 'Was it done?',
  no: 'no',
  doneAt: 'Done at',
  doneBy: 'Done by',
  began: 'Riders up at',
  ended: 'Riders down at',
  rideMinutes: 'Ridden, min',
  notDone: 'not done',
  notHeld: 'not held',
  fromPaper: (count: number) => counted(count, 'stage from paper', 'stages from paper'),
  close: (time: string) => `counted to ${time}`,
  unknown: 'not known',
  yes: 'yes',
  tapped: (from: string, until: string) => `tapped ${from}–${until}`,
} as const;

/** What is put right. */
export const END_CORRECT = {
  stay: 'Coming or going',
  stage: 'A stage',
  lesson: 'A lesson',
  ride: 'A horse’s ride',
  paper: 'Ticks from paper',
} as const;

export const END_TABLE = {
  horses: 'Horses',
  people: 'Volunteers',
  stays: 'Coming and going',
  lessons: 'Lessons on time',
  stages: 'Stage times, measured from tap to tap',
  findings: 'Findings',
  holds: 'Off work and released',
  after: 'After the lessons',
  changes: 'Changes',
  calls: 'Calls for help by hour',
  alerts: 'Calls for attention by hour',
  spare: 'Spare',
  overTime: 'Over time',
  corrections: 'Corrections',
} as const;

export const END_HEAD = {
  date: 'Date',
  time: 'Time',
  horse: 'Horse',
  lessons: 'Lessons',
  lessonMinutes: 'In lessons, min',
  waitingMinutes: 'Waiting, min',
  days: 'Days',
  week: 'Days in 7',
  over: 'Over the limit',
  person: 'Volunteer',
  minutes: 'Here, min',
  open: 'No leaving time',
  leading: 'Leading, min',
  walking: 'Side-walking, min',
  stages: 'Stages',
  from: 'Came',
  until: 'Left',
  note: 'Note',
  lesson: 'Lesson',
  start: 'Start',
  ramp: 'Ramp time',
  ready: 'Ready',
  late: 'Late, min',
  verdict: 'On time?',
  stage: 'Stage',
  count: 'Times',
  mean: 'Mean, min',
  shortest: 'Shortest, min',
  longest: 'Longest, min',
  what: 'What',
  by: 'By',
  read: 'Read by',
  off: 'Off',
  released: 'Released',
  about: 'About',
  takenBack: 'Taken back',
  spare: 'Spare, min',
  since: 'From',
  lateLessons: 'Late',
  arena: 'Horses in the arena, min',
  people: 'Volunteers, h',
  recorded: 'As recorded',
} as const;

export const END_ALERT: Record<AlertKind, string> = {
  notDone: 'taps declined',
  callNow: 'findings: call now',
  hand: 'a hand',
  unsure: 'not sure',
  notKept: 'hub cannot write',
  offToday: 'findings: off work',
  away: 'hub away',
  feetBy: 'feet not checked',
  openRole: 'role open',
  behind: 'behind',
  wait: 'findings: wait',
  carryOn: 'findings: tell',
  damage: 'hub mended',
  answered: 'answered',
};

export function endOnTime(verdict: OnTime): string {
  switch (verdict.kind) {
    case 'onTime':
      return 'on time';
    case 'late':
      return `${Math.ceil(verdict.lateMs / 60_000)} min late`;
    case 'unknown':
      return `not known for ${counted(verdict.horses, 'horse', 'horses')}`;
    case 'cancelled':
      return 'cancelled';
    case 'toCome':
      return 'to come';
    case 'noHorses':
      return 'no horses';
  }
}

const OVER: Readonly<Record<string, (limit: number) => string>> = {
  'minutes-per-day': (limit) => `over ${limit} min a day`,
  'minutes-in-a-row': (limit) => `over ${limit} min in a row`,
  'lessons-per-day': (limit) => `over ${limit} lessons a day`,
  'days-in-a-row': (limit) => `over ${limit} days in a row`,
  'days-per-week': (limit) => `over ${limit} days a week`,
};
export const endOver = (code: string, limit: number): string => OVER[code]?.(limit) ?? code;

const CHANGE: Readonly<Record<string, string>> = {
  horsePulled: 'taken off work',
  horseReleased: 'released',
  horseIsolated: 'kept apart',
  isolationEnded: 'no longer kept apart',
  farrierCame: 'farrier came',
  conditionScored: 'condition scored',
  standInsTaken: 'stand-ins taken',
  volunteerExpected: 'hours given',
  volunteerNotComing: 'not coming',
  workMoved: 'work moved',
  lessonAdded: 'lesson added',
  lessonMoved: 'lesson moved',
  lessonsMoved: 'lessons moved',
  lessonShortened: 'lesson length changed',
  lessonCancelled: 'lesson cancelled',
  lessonsCancelled: 'lessons cancelled',
  lessonPlanned: 'lesson planned',
  placesPlanned: 'places planned',
  placeCancelled: 'place cancelled',
  placeHorseChanged: 'another horse',
  rolesChanged: 'roles changed',
  recordSaved: 'record saved',
  recordRetired: 'record retired',
  ruleSet: 'rule changed',
  rulesChanged: 'rules changed',
  barnNamed: 'barn named',
  planTaken: 'plan taken',
  undone: 'undone',
};
export const endChange = (kind: string): string => CHANGE[kind] ?? kind;
