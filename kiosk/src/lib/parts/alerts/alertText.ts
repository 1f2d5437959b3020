/** How an alert reads: in one line and a smaller one, with a mark, on a ground as strong as it calls. */
import type { Alert, BarnAlert } from '#core/day/alerts/alert.ts';
import type { AdviceLevel } from '#core/care/findingRules.ts';
import type { Readiness } from '#core/day/views/words.ts';
import { MINUTE_MS } from '#core/time/units.ts';
import type { HelpLine } from '#core/day/views/help.ts';
import { saidOf } from '../findings/unread.ts';
import { clockTime } from '../format.ts';
import { say } from '../../words.ts';

export type Shown = {
  readonly what: string;
  readonly why: string;
  readonly mark: Readiness;
  /** As strong as findings of this level; null: a question, told: nothing is asked any more. */
  readonly level: AdviceLevel | 'told' | null;
};

export function isOfBarn(alert: Alert): alert is BarnAlert {
  return !['notDone', 'notKept', 'away', 'damage'].includes(alert.kind);
}

export function callTitle({ kind, name, stall, to }: HelpLine): string {
  return kind === 'unsure' ? say.CALL.unsureAt(name, stall, to) : say.CALL.handAt(name, stall);
}

export function whoComes({ coming, helpers }: HelpLine): string {
  if (coming.length > 0) return say.CALL.coming(coming.join(', '));
  const [near] = helpers;
  return near ? say.CALL.free(near.name, near.metres) : say.CALL.nobodyFree;
}

export function shownAs(alert: BarnAlert, zone: string): Shown {
  switch (alert.kind) {
    case 'callNow':
    case 'offToday':
    case 'wait':
    case 'carryOn': {
      const { about } = alert;
      const { name, advice } = about;
      return {
        what: say.ALERTS.finding(name, say.sayAdvice(advice)),
        why: [say.sayHandling(advice), saidOf(about)].filter((one) => one !== '').join(' '),
        mark: alert.kind === 'callNow' || alert.kind === 'offToday' ? 'late' : 'tight',
        level: advice.level,
      };
    }
    case 'hand':
    case 'unsure':
    case 'answered':
      return {
        what: callTitle(alert.line),
        why: whoComes(alert.line),
        mark: 'nobody',
        level: alert.kind === 'answered' ? 'told' : null,
      };
    case 'feetBy':
      return {
        what: say.FEET_DUE.what(alert.name),
        why: say.FEET_DUE.why(clockTime(alert.feetBy, zone)),
        mark: 'tight',
        level: 'wait',
      };
    case 'openRole':
      return {
        what: say.ROLE_OPEN.what(
          alert.name,
          clockTime(alert.start, zone),
          say.ROLE.missing([...new Set(alert.roles)]),
        ),
        why: say.ROLE_OPEN.why,
        mark: 'nobody',
        level: null,
      };
    case 'behind':
      return {
        what: say.BEHIND.what(alert.name, Math.ceil(alert.behindMs / MINUTE_MS)),
        why: alert.piece ? say.BEHIND.why(alert.piece.horseName, alert.piece.stage) : '',
        mark: 'late',
        level: null,
      };
  }
}
