/** What happens on the invented afternoon besides the work: the cues of coordinator and instructor, at barn times. */
import type { Board } from '#core/day/board.ts';
import type { OpFact } from '#core/day/ops.ts';
import type { Role } from '#core/day/places.ts';
import { MINUTE_MS } from '#core/time/units.ts';
import { instantAt } from '#core/time/zone.ts';
import { COORDINATOR, DEMO_ZONE } from './barn.ts';
import { handOver, soonest } from './coordinator.ts';
import { tackId } from './horses.ts';
import { sceneReader } from './scene.ts';

/** At this moment, from a tablet in this role, this person says what `facts` makes of the board then. */
export type Cue = {
  readonly id: string;
  /** ms */
  readonly at: number;
  readonly from: Role;
  readonly by: string;
  readonly facts: (board: Board, now: number) => readonly OpFact[];
};

export const NO_SHOW = 'v9';
export const LATE_COMER = 'v7';
export const MOVED_LESSON = 'l4';
export const CANCELLED = { lesson: 'l2', place: 'l2p4' } as const;
export const LOST_SHOE = { horse: 'kip', lesson: 'l3', place: 'l3p4', standIn: 'pepper' } as const;

/** When each lesson's instructor checks, and taps that riders are up and down again. */
const RIDES = [
  { lesson: 'l1', by: 'i1', checked: '13:55', up: '14:01', down: '14:30' },
  { lesson: 'l2', by: 'i2', checked: '14:51', up: '14:56', down: '15:25' },
  { lesson: 'l3', by: 'i1', checked: '15:41', up: '15:46', down: '16:19' },
  { lesson: 'l4', by: 'i2', checked: '16:22', up: '16:27', down: '16:55' },
  { lesson: 'l5', by: 'i1', checked: '17:06', up: '17:11', down: '17:40' },
] as const;

const MOVED_BY_MS = 10 * MINUTE_MS;

/** When those who do not keep their word really come, ms; null: not at all. */
export function demoArrivals(date: string): Record<string, number | null> {
  return { [NO_SHOW]: null, [LATE_COMER]: instantAt({ date, time: '13:43' }, DEMO_ZONE) };
}

/** The afternoon's cues, by time. */
export function demoScript(date: string): Cue[] {
  const cue = (time: string, from: Cue['from'], by: string, facts: Cue['facts']): Cue => ({
    id: `${from}-${time.replace(':', '')}`,
    at: instantAt({ date, time }, DEMO_ZONE),
    from,
    by,
    facts,
  });
  const { horse, lesson, place, standIn } = LOST_SHOE;
  return [
    // Søren was expected at 13:30. Somebody rings him, and his horse goes to whoever can have it ready first.
    cue('14:00', 'coordinator', COORDINATOR, () => [{ kind: 'volunteerNotComing', volunteer: NO_SHOW }]),
    cue('14:03', 'coordinator', COORDINATOR, (board, now) => workOf(board, NO_SHOW, now)),

    // A rider of the second lesson cancels while the horse is being prepared.
    cue('14:12', 'coordinator', COORDINATOR, () => [{ kind: 'placeCancelled', ...CANCELLED }]),

    // Clay is not himself; the instructor of his lesson reads it and has a look.
    cue('13:46', 'aisle', 'v4', () => [
      {
        kind: 'findingSeen',
        horse: 'clay',
        finding: { on: 'manner', kind: 'unsettled' },
        words: 'Calls to his neighbour, stands when somebody is with him.',
      },
    ]),
    cue('13:49', 'door', 'i2', (board) => unread(board, 'clay')),

    // Kip has lost a shoe. The instructor pulls him, and who was to prepare Kip takes the stand-in.
    cue('14:47', 'aisle', 'v3', () => [
      {
        kind: 'findingSeen',
        horse,
        finding: { on: 'foot', foot: 'LF', kind: 'shoe-lost' },
        words: 'Shoe not found in the stall.',
      },
    ]),
    cue('14:50', 'door', 'i1', (board) => [
      ...unread(board, horse),
      { kind: 'horsePulled', horse, why: 'Left fore shoe lost. Farrier called.', hold: 'farrier' },
    ]),
    cue('14:54', 'coordinator', COORDINATOR, () => [
      {
        kind: 'standInsTaken',
        changes: [{ lesson, place, horse: standIn, tack: tackId(standIn, 'Western') }],
        work: [{ lesson, place, to: 'v3' }],
      },
    ]),

    // The lesson before runs over, so the half hour begins ten minutes later.
    cue('15:20', 'coordinator', COORDINATOR, (board) => {
      const start = board.day.lessons[MOVED_LESSON]?.start;
      return start === undefined
        ? []
        : [{ kind: 'lessonMoved', lesson: MOVED_LESSON, start: start + MOVED_BY_MS }];
    }),

    ...RIDES.flatMap(({ lesson, by, checked, up, down }) => [
      cue(checked, 'door', by, (board) => [
        {
          kind: 'placesChecked',
          lesson,
          places: (board.day.lessons[lesson]?.places ?? [])
            .filter((one) => !one.cancelled)
            .map(({ id }) => id),
          check: 'instructor',
        },
      ]),
      cue(up, 'door', by, () => [{ kind: 'ridersUp', lesson }]),
      cue(down, 'door', by, () => [{ kind: 'ridersDown', lesson }]),
    ]),

    cue('16:47', 'coordinator', COORDINATOR, () => [{ kind: 'volunteerLeft', volunteer: LATE_COMER }]),
    cue('18:14', 'coordinator', COORDINATOR, (board) =>
      Object.entries(board.day.hands).flatMap(([volunteer, { presence }]) =>
        presence.state === 'here' ? [{ kind: 'volunteerLeft' as const, volunteer }] : [],
      ),
    ),
  ];
}

/** Reading what was seen on this horse and nobody has read yet. */
function unread(board: Board, horse: string): OpFact[] {
  return board.findings
    .filter((note) => note.horse === horse && note.read.length === 0)
    .map((note) => ({ kind: 'findingRead', finding: note.id }));
}

/** Everything open in this person's queue, horse by horse, to whoever can have it ready first. */
function workOf(board: Board, volunteer: string, now: number): OpFact[] {
  const scene = sceneReader()(board);
  const queue = board.day.hands[volunteer]?.queue ?? [];
  return scene.open
    .filter((one) => one.open.some((stage) => queue.includes(`${one.prep.id}:${stage}`)))
    .flatMap((one) => {
      const taker = soonest(scene, one, now);
      return taker ? [handOver(scene, one, taker.id)] : [];
    });
}
