/** How much a horse has worked and would work: minutes, lessons, stretch without a break, days in a row. */
import type { WorkloadRules } from './workloadRules.ts';
import { badFigure, cannotSay, type BadFigure, type CannotSay } from './figures.ts';

const MS_PER_MINUTE = 60_000;
const MAX_INTERVAL_MS = 24 * 60 * MS_PER_MINUTE;
/** Any instant a JavaScript date can hold. */
const LATEST_MS = 8.64e15;

/** A stretch of work. Times are epoch milliseconds by the hub's clock. */
export interface WorkInterval {
  readonly fromMs: number;
  readonly toMs: number;
  /** Set when the horse stays in the arena afterwards, until then. */
  readonly inArenaUntilMs: number | null;
  /** The same lesson, worked and planned, is one lesson. */
  readonly lessonId: string | null;
}

export interface WorkloadCase {
  /** Today, done or under way. */
  readonly worked: readonly WorkInterval[];
  /** Today, still to come. */
  readonly planned: readonly WorkInterval[];
  /** What is asked for on top; null to judge the day as it stands. */
  readonly proposed: WorkInterval | null;
  /** Days before today, yesterday first; true when the horse worked. Missing days count as rest. */
  readonly workedOnDaysBefore: readonly boolean[];
}

export interface WorkloadFigures {
  readonly minutesToday: number;
  readonly longestStretchMinutes: number;
  readonly lessonsToday: number;
  /** Today included, when the horse works today. */
  readonly daysInARow: number;
  /** Of today and the six days before. */
  readonly daysInWeek: number;
}

export interface WorkloadOver {
  readonly code:
    'minutes-per-day' | 'minutes-in-a-row' | 'lessons-per-day' | 'days-in-a-row' | 'days-per-week';
  readonly figure: number;
  readonly limit: number;
}

export type WorkloadVerdict =
  | { readonly kind: 'fits'; readonly figures: WorkloadFigures }
  | {
      readonly kind: 'does-not-fit';
      readonly over: readonly WorkloadOver[];
      readonly figures: WorkloadFigures;
    }
  | CannotSay<BadFigure>;

/**
 * Judges a horse's day, with one more piece of work if asked.
 *
 * Sources: 6 h a day and 6 days a week, PATH Intl. maximum as quoted in J Equine Vet Sci 2020 ("Characterization
 * of horse use in therapeutic horseback riding programs"); waiting in the arena is arena time and one full rest
 * day a week, Certified Horsemanship Association. 3 h in a row is from memory; the break length has no source.
 * A limit reached exactly is kept. Overlapping intervals count once. A stretch runs from its first minute to its
 * last, short pauses included. Refuses intervals that end before they begin or last over a day.
 */
export function judgeWorkload(rules: WorkloadRules, work: WorkloadCase): WorkloadVerdict {
  const all = [...work.worked, ...work.planned, ...(work.proposed === null ? [] : [work.proposed])];
  for (const interval of all) {
    const bad = badInterval(interval);
    if (bad) return cannotSay(bad);
  }
  const spans = joined(all.map((interval) => spanOf(rules, interval)));
  const lessons = new Set(all.flatMap((interval) => (interval.lessonId === null ? [] : [interval.lessonId])));
  const week = [all.length > 0, ...work.workedOnDaysBefore.slice(0, 6)];
  const figures: WorkloadFigures = {
    minutesToday: minutes(spans.reduce((sum, span) => sum + span.toMs - span.fromMs, 0)),
    longestStretchMinutes: minutes(longestStretchMs(spans, rules.breakMinutes * MS_PER_MINUTE)),
    lessonsToday: lessons.size,
    daysInARow: all.length > 0 ? 1 + leadingTrue(work.workedOnDaysBefore) : 0,
    daysInWeek: week.filter(Boolean).length,
  };

  const checks: readonly [WorkloadOver['code'], number, number | null][] = [
    ['minutes-per-day', figures.minutesToday, rules.minutesPerDay],
    ['minutes-in-a-row', figures.longestStretchMinutes, rules.minutesInARow],
    ['lessons-per-day', figures.lessonsToday, rules.lessonsPerDay],
    ['days-in-a-row', figures.daysInARow, rules.daysInARow],
    ['days-per-week', figures.daysInWeek, rules.daysPerWeek],
  ];
  const over = checks.flatMap(([code, figure, limit]) =>
    limit !== null && figure > limit && all.length > 0 ? [{ code, figure, limit }] : [],
  );
  return over.length > 0 ? { kind: 'does-not-fit', over, figures } : { kind: 'fits', figures };
}

interface Span {
  readonly fromMs: number;
  readonly toMs: number;
}

function badInterval(interval: WorkInterval): BadFigure | null {
  const end = interval.inArenaUntilMs ?? interval.toMs;
  return (
    badFigure('fromMs', interval.fromMs, -LATEST_MS, LATEST_MS) ??
    badFigure('durationMs', interval.toMs - interval.fromMs, 0, MAX_INTERVAL_MS) ??
    badFigure('durationInArenaMs', end - interval.fromMs, 0, MAX_INTERVAL_MS)
  );
}

function spanOf(rules: WorkloadRules, interval: WorkInterval): Span {
  const until = rules.arenaWaitCounts ? (interval.inArenaUntilMs ?? interval.toMs) : interval.toMs;
  return { fromMs: interval.fromMs, toMs: Math.max(interval.toMs, until) };
}

/** Sorted spans without overlap. */
function joined(spans: readonly Span[]): Span[] {
  const out: Span[] = [];
  for (const span of [...spans].sort((a, b) => a.fromMs - b.fromMs)) {
    const last = out.at(-1);
    if (last !== undefined && span.fromMs <= last.toMs) {
      out[out.length - 1] = { fromMs: last.fromMs, toMs: Math.max(last.toMs, span.toMs) };
    } else {
      out.push(span);
    }
  }
  return out;
}

function longestStretchMs(spans: readonly Span[], breakMs: number): number {
  let longest = 0;
  let startMs = Number.NaN;
  let endMs = Number.NEGATIVE_INFINITY;
  for (const span of spans) {
    if (span.fromMs - endMs >= breakMs) startMs = span.fromMs;
    endMs = span.toMs;
    longest = Math.max(longest, endMs - startMs);
  }
  return longest;
}

function minutes(ms: number): number {
  return ms / MS_PER_MINUTE;
}

function leadingTrue(days: readonly boolean[]): number {
  const rest = days.indexOf(false);
  return rest === -1 ? days.length : rest;
}
