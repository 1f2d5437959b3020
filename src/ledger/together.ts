/** Days added up. */
import { EMPTY_ACCOUNT, type Account, type HorseFigures } from './account.ts';
import { addPerson } from './people.ts';
import { addStages, summed } from './stages.ts';

/** The sum of accounts of different dates, in their order. Of none: empty. */
export function together(accounts: readonly Account[]): Account {
  return accounts.reduce(add, EMPTY_ACCOUNT);
}

function add(a: Account, b: Account): Account {
  return {
    dates: [...new Set([...a.dates, ...b.dates])],
    byTodaysRules: [...new Set([...a.byTodaysRules, ...b.byTodaysRules])],
    horses: summed([...a.horses, ...b.horses], (one) => one.horse, addHorse),
    people: summed([...a.people, ...b.people], (one) => one.person, addPerson),
    stays: [...a.stays, ...b.stays],
    lessons: [...a.lessons, ...b.lessons],
    findings: [...a.findings, ...b.findings],
    holds: [...a.holds, ...b.holds],
    stages: summed([...a.stages, ...b.stages], (one) => `${one.stage}/${one.horse}/${one.person}`, addStages),
    notMeasured: summed(
      [...a.notMeasured, ...b.notMeasured],
      (one) => one.because,
      (x, y) => ({ ...x, count: x.count + y.count }),
    ),
    changes: [...a.changes, ...b.changes],
    spare: [...a.spare, ...b.spare],
    preps: a.dates.length === 0 ? b.preps : b.dates.length === 0 ? a.preps : [],
    after: [...a.after, ...b.after],
    calls: [...a.calls, ...b.calls],
    alerts: [...a.alerts, ...b.alerts],
    corrections: [...a.corrections, ...b.corrections],
  };
}

function addHorse(a: HorseFigures, b: HorseFigures): HorseFigures {
  return {
    horse: a.horse,
    lessons: a.lessons + b.lessons,
    lessonMs: a.lessonMs + b.lessonMs,
    waitingMs: a.waitingMs + b.waitingMs,
    days: [...a.days, ...b.days],
    over: [...a.over, ...b.over],
  };
}
