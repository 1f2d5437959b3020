/** An account as tables: the same rows for the screen, for paper and for CSV. Lengths in minutes, one decimal. */
import { WORK_STAGES } from '#core/barn/stage.ts';
import type { Account, CorrectionRecord } from '#core/ledger/account.ts';
import { onTime } from '#core/ledger/lessons.ts';
import { overTime } from '#core/ledger/overTime.ts';
import { stagesBy } from '#core/ledger/stages.ts';
import { HOUR_MS, MINUTE_MS } from '#core/time/units.ts';
import { say } from '../../words.ts';
import { clockTime } from '../format.ts';

export type Cell = string | number;
export type EndTable = {
  readonly id: keyof typeof say.END_TABLE;
  readonly heads: readonly string[];
  readonly rows: readonly (readonly Cell[])[];
};

type Names = { readonly nameOf: (id: string) => string; readonly zone: string };

const minutes = (ms: number): number => Math.round(ms / (MINUTE_MS / 10)) / 10;

export function tablesOf(account: Account, { nameOf, zone }: Names): EndTable[] {
  const time = (at: number | null): string => (at === null ? say.END.unknown : clockTime(at, zone));
  const who = (id: string | null): string => (id === null ? '' : nameOf(id));
  const H = say.END_HEAD;
  const table = (id: EndTable['id'], heads: string[], rows: Cell[][]): EndTable => ({ id, heads, rows });
  return [
    table(
      'horses',
      [H.horse, H.lessons, H.lessonMinutes, H.waitingMinutes, H.days, H.week, H.over],
      account.horses.map((one) => [
        nameOf(one.horse),
        one.lessons,
        minutes(one.lessonMs),
        minutes(one.waitingMs),
        one.days.length,
        Math.max(0, ...one.days.map((day) => day.daysInWeek)),
        one.over.map((over) => `${over.date}: ${say.endOver(over.code, over.limit)}`).join('; '),
      ]),
    ),
    table(
      'overTime',
      [H.since, H.lessons, H.lateLessons, H.arena, H.people],
      // Of one day the other tables say more.
      account.dates.length < 2
        ? []
        : overTime(account).steps.map((step) => [
            step.from,
            step.lessons,
            step.late,
            minutes(step.horsesMs),
            Math.round(step.peopleMs / (HOUR_MS / 10)) / 10,
          ]),
    ),
    table(
      'people',
      [H.person, H.minutes, H.open, H.leading, H.walking, H.stages],
      account.people.map((one) => [
        nameOf(one.person),
        minutes(one.ms),
        one.openStays,
        minutes(one.leadingMs),
        minutes(one.sideWalkingMs),
        one.stages,
      ]),
    ),
    table(
      'stays',
      [H.date, H.person, H.from, H.until, H.minutes, H.note],
      account.stays.map((one) => [
        one.date,
        nameOf(one.volunteer),
        time(one.from),
        time(one.until),
        minutes(one.ms),
        [
          one.until === null && one.countedUntil !== null ? say.END.close(time(one.countedUntil)) : '',
          one.tapped ? say.END.tapped(time(one.tapped.from), time(one.tapped.until)) : '',
          one.correction ? `${who(one.correction.by)}: ${one.correction.why}` : '',
        ]
          .filter((note) => note !== '')
          .join('; '),
      ]),
    ),
    table(
      'lessons',
      [H.date, H.lesson, H.start, H.verdict, H.horse, H.ramp, H.ready, H.late],
      account.lessons.flatMap((lesson) => {
        const head = [lesson.date, lesson.name, time(lesson.start), say.endOnTime(onTime(lesson))];
        if (lesson.horses.length === 0) return [[...head, '', '', '', '']];
        return lesson.horses.map(({ horse, ramp, readyAt }): Cell[] => [
          ...head,
          nameOf(horse),
          time(ramp),
          time(readyAt),
          readyAt === null ? '' : Math.max(0, minutes(readyAt - ramp)),
        ]);
      }),
    ),
    table(
      'stages',
      [H.what, H.count, H.mean, H.shortest, H.longest],
      (['stage', 'horse', 'person'] as const).flatMap((what) =>
        stagesBy(account.stages, what).map((one) => [
          WORK_STAGES.find((stage) => what === 'stage' && stage === one.key)
            ? say.STAGE_WORK[one.key as (typeof WORK_STAGES)[number]]
            : nameOf(one.key),
          one.count,
          minutes(one.totalMs / one.count),
          minutes(one.shortestMs),
          minutes(one.longestMs),
        ]),
      ),
    ),
    table(
      'findings',
      [H.date, H.time, H.horse, H.what, H.by, H.read],
      account.findings.map((one) => [
        one.date,
        time(one.at),
        nameOf(one.horse),
        one.words === '' ? say.sayFinding(one.finding) : `${say.sayFinding(one.finding)}: ${one.words}`,
        who(one.by),
        one.readBy.map(nameOf).join(', '),
      ]),
    ),
    table(
      'holds',
      [H.date, H.horse, H.off, H.by, H.what, H.released, H.by, H.note],
      account.holds.map(({ date, horse, pulled, released }) => [
        date,
        nameOf(horse),
        pulled ? time(pulled.at) : '',
        who(pulled?.by ?? null),
        pulled ? `${say.HOLD_WORD[pulled.hold]}: ${pulled.why}` : '',
        released ? time(released.at) : '',
        who(released?.by ?? null),
        released?.word ?? '',
      ]),
    ),
    table(
      'after',
      [H.date, H.horse, ...(['untack', 'cool', 'look', 'away'] as const).map((one) => say.STAGE_WORK[one])],
      account.after.map((one) => [
        one.date,
        nameOf(one.horse),
        ...(['untack', 'cool', 'look', 'away'] as const).map((stage) =>
          one[stage] ? time(one[stage].at) : '',
        ),
      ]),
    ),
    table(
      'changes',
      [H.date, H.time, H.by, H.what, H.about, H.takenBack],
      account.changes.map((one) => [
        one.date,
        time(one.at),
        who(one.by),
        say.endChange(one.kind),
        one.about.map(nameOf).join(', '),
        one.takenBack ? say.END.yes : '',
      ]),
    ),
    table(
      'calls',
      [H.time, H.count],
      [...Map.groupBy(account.calls, ({ at }) => `${clockTime(at, zone).slice(0, 2)}:00`)]
        .sort(([a], [b]) => (a < b ? -1 : 1))
        .map(([hour, calls]) => [hour, calls.length]),
    ),
    table(
      'alerts',
      [H.time, H.count, H.what],
      [
        ...Map.groupBy(
          account.alerts.flatMap(({ calls }) => calls),
          ({ at }) => `${clockTime(at, zone).slice(0, 2)}:00`,
        ),
      ]
        .sort(([a], [b]) => (a < b ? -1 : 1))
        .map(([hour, calls]) => [
          hour,
          calls.length,
          [...Map.groupBy(calls, ({ kind }) => kind)]
            .map(([kind, of]) => `${of.length} × ${say.END_ALERT[kind]}`)
            .join(', '),
        ]),
    ),
    table(
      'corrections',
      [H.date, H.by, H.what, H.recorded, H.note],
      account.corrections.map((one) => [
        one.date,
        who(one.by),
        correctionText(one, account, { nameOf, zone }),
        one.was
          ? `${time(one.was.from)}${one.was.until === null ? '' : `–${time(one.was.until)}`} ${who(one.was.by)}`.trim()
          : '',
        one.why,
      ]),
    ),
    table(
      'spare',
      [H.time, H.horse, H.stage, H.spare],
      account.spare.map((one) => [
        time(one.at),
        nameOf(one.horse),
        say.STAGE_WORK[one.stage],
        minutes(one.spareMs),
      ]),
    ),
  ].filter(({ rows }) => rows.length > 0);
}

/** What a correction says. */
function correctionText({ correction }: CorrectionRecord, account: Account, { nameOf, zone }: Names): string {
  const time = (at: number | null): string => (at === null ? say.END.unknown : clockTime(at, zone));
  const lessonName = (id: string): string => account.lessons.find(({ lesson }) => lesson === id)?.name ?? id;
  switch (correction.about) {
    case 'stay':
      return `${nameOf(correction.volunteer)}: ${time(correction.from)}–${time(correction.until)}`;
    case 'stages':
      return say.END.fromPaper(correction.done.length);
    case 'stage': {
      const horse = account.preps.find(({ prep }) => prep === correction.prep)?.horse;
      const what = `${horse ? nameOf(horse) : correction.prep}, ${say.STAGE_WORK[correction.stage]}`;
      if (correction.at === null) return `${what}: ${say.END.notDone}`;
      return `${what}: ${time(correction.at)} ${correction.by === null ? '' : nameOf(correction.by)}`.trim();
    }
    case 'lesson':
      return correction.start === correction.end
        ? `${lessonName(correction.lesson)}: ${say.END.notHeld}`
        : `${lessonName(correction.lesson)}: ${time(correction.start)}–${time(correction.end)}`;
    case 'ride':
      return `${nameOf(correction.horse)}, ${lessonName(correction.lesson)}: ${say.span(correction.minutes)}`;
    case 'note':
      return '';
  }
}
