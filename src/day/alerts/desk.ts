/** What calls for the coordinator's attention: all that calls on the other boards, and who is behind. */
import { own } from '../../barn/basics.ts';
import type { Forecast } from '../../plan/model.ts';
import type { Board } from '../board.ts';
import { pieceParts } from '../pieces.ts';
import { personName } from '../views/aisle.ts';
import { feetAlerts } from './aisle.ts';
import type { BarnAlert, BehindAlert } from './alert.ts';
import { doorAlerts } from './door.ts';

/** At barn time `now` in ms. */
export function deskAlerts(board: Board, forecast: Forecast | null, now: number): BarnAlert[] {
  return [
    ...doorAlerts(board, now, null),
    ...feetAlerts(board, forecast, now, []),
    ...behindAlerts(board, forecast),
  ];
}

/** Everybody the forecast names as behind. */
export function behindAlerts(board: Board, forecast: Forecast | null): BehindAlert[] {
  return Object.values(forecast?.hands ?? {}).flatMap(
    ({ volunteer, since, behindMs, because }): BehindAlert[] => {
      if (since === null) return [];
      const parts = because === null ? null : pieceParts(because);
      const prep = parts ? own(board.day.preps, parts.prep) : undefined;
      const horse = prep && own(board.barn.horses, prep.horse);
      return [
        {
          kind: 'behind',
          key: `behind:${volunteer}`,
          since,
          volunteer,
          name: personName(board, volunteer),
          behindMs,
          piece: parts && horse ? { prep: parts.prep, horseName: horse.name, stage: parts.stage } : null,
        },
      ];
    },
  );
}
