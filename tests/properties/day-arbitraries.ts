/** A small barn and everything that can be tapped at it, sensible or not, for the property tests of `src/day`. */
import fc from 'fast-check';
import { DEFAULT_RULES } from '#core/barn/rules.ts';
import type { TableRecord } from '#core/barn/barn.ts';
import type { Horse } from '#core/barn/horse.ts';
import type { Lesson } from '#core/barn/lesson.ts';
import type { Finding } from '#core/care/findings.ts';
import type { WeatherReading } from '#core/care/weatherRules.ts';
import { CHANGE_REASONS } from '#core/barn/changeReasons.ts';
import { AFTER_STAGES, STAGES, WORK_STAGES } from '#core/barn/stage.ts';
import type { Board } from '#core/day/board.ts';
import { emptyBoard } from '#core/day/emptyBoard.ts';
import { PLACE_CHECKS } from '#core/day/placeChecks.ts';
import { evolve } from '#core/day/evolve.ts';
import type { Entry, Fact, Op, OpFact } from '#core/day/ops.ts';
import { HOUR_MS, MINUTE_MS } from '#core/time/units.ts';

/** 2026-05-11 13:00 in the barn's zone. */
export const NOON = Date.UTC(2026, 4, 11, 19, 0);

export function horse(id: string, more: Partial<Horse> = {}): Horse {
  return {
    id,
    name: id,
    stall: 's1',
    feet: { LF: 'shod', LH: 'barefoot', RF: 'shod', RH: 'barefoot' },
    tackLists: [
      { id: 't1', name: 'English', items: ['Pad', 'Saddle', 'Girth', 'Bridle'], kg: 9 },
      { id: 't2', name: 'Surcingle', items: ['Pad', 'Surcingle', 'Bridle'], kg: null },
    ],
    experiencedFor: [],
    notes: '',
    cautions: [],
    holds: [],
    private: { weight: { kg: 512.25, how: 'scale' }, pony: false, condition: 5, loadLimit: null },
    ...more,
  };
}

export function entry(seq: number, fact: Fact, more: Partial<Entry> = {}): Entry {
  const at = NOON + seq * 1000;
  return {
    seq,
    at,
    id: `op${seq}`,
    device: 'd1',
    by: null,
    tappedAt: at,
    facts: [fact],
    why: null,
    ...more,
  };
}

/** Three horses, three people, two lessons: `fern` goes in both, with a change of tack between. */
export function smallBoard(): Board {
  const place = { leader: null, sideWalkers: [], cancelled: false };
  const facts: Fact[] = [
    { kind: 'rulesChanged', rules: DEFAULT_RULES },
    { kind: 'recordSaved', saved: { table: 'stalls', record: { id: 's1', name: '1', metres: 0 } } },
    { kind: 'recordSaved', saved: { table: 'horses', record: horse('fern') } },
    { kind: 'recordSaved', saved: { table: 'horses', record: horse('moss') } },
    {
      kind: 'recordSaved',
      saved: { table: 'horses', record: horse('sorrel', { experiencedFor: ['feet'] }) },
    },
    ...['ada', 'ben', 'cho'].map((id): Fact => ({
      kind: 'recordSaved',
      saved: {
        table: 'volunteers',
        record: {
          id,
          name: id,
          clearances:
            id === 'ben'
              ? ['feet', 'coat', 'lead']
              : ['feet', 'coat', 'tack', 'experienced', 'lead', 'side-walk'],
          private: { pace: 1, usualHours: [], ...(id === 'ben' ? { minor: true } : {}) },
        },
      },
    })),
    { kind: 'recordSaved', saved: { table: 'arenas', record: { id: 'a1', name: 'Inside' } } },
    {
      kind: 'recordSaved',
      saved: { table: 'staff', record: { id: 'ines', name: 'Ines', role: 'instructor' } },
    },
    {
      kind: 'recordSaved',
      saved: {
        table: 'riders',
        record: {
          id: 'r1',
          callName: 'Robin',
          private: {
            fullName: 'Robin Example',
            weightKg: 48.5,
            balanced: false,
            needs: 'left side weak',
            approvedHorses: ['fern'],
            notWithHorses: [],
          },
        },
      },
    },
    { kind: 'dayOpened', date: '2026-05-11' },
    {
      kind: 'lessonAdded',
      lesson: {
        id: 'L1',
        name: 'First',
        start: NOON + HOUR_MS,
        minutes: 30,
        arena: null,
        instructor: 'ines',
        cancelled: false,
        places: [
          { ...place, id: 'p1', rider: 'r1', horse: 'fern', tack: 't1' },
          { ...place, id: 'p2', rider: null, horse: 'moss', tack: 't1' },
        ],
      },
    },
    {
      kind: 'lessonAdded',
      lesson: {
        id: 'L2',
        name: 'Second',
        start: NOON + HOUR_MS + 45 * MINUTE_MS,
        minutes: 30,
        arena: null,
        instructor: null,
        cancelled: false,
        places: [
          { ...place, id: 'p1', rider: 'r1', horse: 'fern', tack: 't2' },
          { ...place, id: 'p2', rider: null, horse: 'moss', tack: 't1' },
          { ...place, id: 'p3', rider: null, horse: 'sorrel', tack: 't1' },
        ],
      },
    },
    { kind: 'volunteerArrived', volunteer: 'ada' },
    { kind: 'volunteerArrived', volunteer: 'ben' },
    {
      kind: 'workMoved',
      pieces: ['fern.1:feet', 'fern.1:coat', 'fern.1:tack'],
      to: 'ada',
      before: null,
    },
    { kind: 'workMoved', pieces: ['moss.1:feet', 'moss.1:coat'], to: 'ben', before: null },
  ];
  const board = facts.reduce(
    (b, fact, i) => evolve(b, entry(i + 1, fact)),
    emptyBoard('Test', 'America/Denver'),
  );
  return asFound(board);
}

/** The small barn after more has happened. */
export function smallBoardAfter(...facts: readonly Fact[]): Board {
  return asFound(facts.reduce((board, fact, i) => evolve(board, entry(50 + i, fact)), smallBoard()));
}

/** The set-up is not what a test undoes. */
function asFound(board: Board): Board {
  return { ...board, day: { ...board.day, recent: [] } };
}

const prepId = fc.constantFrom('fern.1', 'fern.2', 'moss.1', 'sorrel.1', 'nobody.9');
const horseId = fc.constantFrom('fern', 'moss', 'sorrel', 'constructor');
const volunteerId = fc.constantFrom('ada', 'ben', 'cho', 'zed');
const person = fc.constantFrom('ada', 'ben', 'cho', 'ines', null, 'zed');
const lessonId = fc.constantFrom('L1', 'L2', 'L9');
const placeId = fc.constantFrom('p1', 'p2', 'p3', 'p9');
const stage = fc.constantFrom(...STAGES);
const workStage = fc.constantFrom(...WORK_STAGES);
const piece = fc.tuple(prepId, workStage).map(([prep, s]) => `${prep}:${s}`);
const instant = fc.integer({ min: -2 * 60, max: 6 * 60 }).map((minutes) => NOON + minutes * MINUTE_MS);
const words = fc.constantFrom('', 'shoe lost', 'sound at trot');

const finding: fc.Arbitrary<Finding> = fc.constantFrom(
  { on: 'foot', foot: 'LF', kind: 'shoe-sprung' },
  { on: 'foot', foot: 'RF', kind: 'heat' },
  { on: 'body', place: 'girth', side: 'left', kind: 'rub' },
);

const reading: fc.Arbitrary<WeatherReading> = fc.constantFrom(
  { airF: 71, humidityPercent: 40, windMph: 4 },
  { airF: 96.5, humidityPercent: 65, windMph: null, wbgtC: 33 },
);

export const findingTap: fc.Arbitrary<OpFact> = fc.record({
  kind: fc.constant('findingSeen'),
  horse: horseId,
  finding,
  words,
});

export const stageTap: fc.Arbitrary<OpFact> = fc.record({
  kind: fc.constant('stagesFinished'),
  prep: prepId,
  stages: fc.oneof(
    fc.uniqueArray(stage, { minLength: 1, maxLength: 3 }),
    fc.uniqueArray(fc.constantFrom(...AFTER_STAGES), { minLength: 1, maxLength: 4 }),
  ),
});

/** Ticks of tack, checks, riders up and down: each counts by when it was tapped, whatever the order of arrival. */
export const rideTap: fc.Arbitrary<OpFact> = fc.oneof(
  fc.record({
    kind: fc.constant('itemsTicked'),
    prep: prepId,
    tack: fc.constantFrom('t1', 't2'),
    items: fc.uniqueArray(fc.constantFrom('Pad', 'Saddle', 'Girth'), { minLength: 1 }),
    on: fc.boolean(),
  }),
  fc.record({
    kind: fc.constant('placesChecked'),
    lesson: lessonId,
    places: fc.uniqueArray(placeId, { minLength: 1, maxLength: 3 }),
    check: fc.constantFrom(...PLACE_CHECKS),
  }),
  fc.record({ kind: fc.constantFrom('ridersUp', 'ridersDown'), lesson: lessonId }),
);

const helpTap: fc.Arbitrary<OpFact> = fc.oneof(
  fc.record({
    kind: fc.constant('helpAsked'),
    horse: horseId,
    call: fc.constantFrom('hand', 'unsure'),
    to: fc.option(volunteerId),
  }),
  fc.record({
    kind: fc.constantFrom('helpAnswered', 'helpEnded'),
    help: fc.nat(12).map((n) => `tap${n}`),
  }),
);

const lessonsTap: fc.Arbitrary<OpFact> = fc.oneof(
  fc.record({
    kind: fc.constant('rolesChanged'),
    changes: fc.array(
      fc.record({
        lesson: lessonId,
        place: placeId,
        role: fc.constantFrom('leader', 'sideWalker'),
        out: fc.option(volunteerId),
        in: fc.option(volunteerId),
      }),
      { minLength: 1, maxLength: 3 },
    ),
  }),
  fc.record({
    kind: fc.constant('lessonsMoved'),
    moves: fc.array(
      fc.record({ lesson: lessonId, start: instant, arena: fc.constantFrom(null, 'a1', 'a9') }),
      { minLength: 1, maxLength: 2 },
    ),
    why: fc.constantFrom(...CHANGE_REASONS),
  }),
  fc.record({
    kind: fc.constant('lessonsCancelled'),
    lessons: fc.array(lessonId, { minLength: 1, maxLength: 2 }),
    why: fc.constantFrom(...CHANGE_REASONS),
  }),
);

const plannedLesson: fc.Arbitrary<Lesson> = fc.record({
  id: fc.constantFrom('L2', 'L3'),
  name: fc.constant('Extra'),
  start: instant,
  minutes: fc.integer({ min: 5, max: 90 }),
  arena: fc.constant(null),
  instructor: fc.constant(null),
  cancelled: fc.boolean(),
  places: fc.uniqueArray(
    fc.record({
      id: placeId,
      rider: fc.constant(null),
      horse: fc.option(horseId),
      tack: fc.constantFrom('t1', 't2', null),
      leader: fc.option(volunteerId),
      sideWalkers: fc.array(volunteerId, { maxLength: 2 }),
      cancelled: fc.boolean(),
    }),
    { maxLength: 3, selector: (one) => one.id },
  ),
});

const wished = { id: 'p1', rider: 'r1', horse: 'fern', tack: 't1', leader: 'ada', sideWalkers: ['ben'] };
const planned = { name: 'Quillwork', minutes: 30, arena: null, instructor: 'ines', places: [wished] };

/** Named so that a test finds them where they must not be. */
const BOOK_RECORDS = [
  { table: 'pattern', record: { ...planned, id: 'w1', time: '16:00', weekday: 1, term: 'spring' } },
  { table: 'planned', record: { ...planned, id: 'once', time: '17:00', date: '2026-05-12' } },
  { table: 'terms', record: { id: 'spring', name: 'Quillterm', from: '2026-04-01', until: '2026-06-30' } },
  {
    table: 'exceptions',
    record: { id: 'w1', what: 'closed', from: '2026-05-12', until: '2026-05-12', why: 'Quillday' },
  },
  {
    table: 'shifts',
    record: {
      id: 'w1',
      volunteer: 'ada',
      on: { every: 'once', date: '2026-05-12' },
      from: '15:00',
      until: '18:00',
    },
  },
] as const;

export const opFact: fc.Arbitrary<OpFact> = fc.oneof(
  { weight: 4, arbitrary: stageTap },
  {
    weight: 3,
    arbitrary: fc.record({ kind: fc.constant('stageStarted'), prep: prepId, stage: workStage }),
  },
  { weight: 3, arbitrary: rideTap },
  { weight: 2, arbitrary: helpTap },
  { weight: 3, arbitrary: lessonsTap },
  fc.record({
    kind: fc.constant('stagesWrittenDown'),
    date: fc.constantFrom('2026-05-10', '2026-05-11', '2026-05-12'),
    done: fc.array(fc.record({ prep: prepId, stage, at: fc.option(instant), by: person }), {
      minLength: 1,
      maxLength: 4,
    }),
  }),
  fc.record({
    kind: fc.constant('ledgerCorrected'),
    date: fc.constantFrom('2026-05-10', '2026-05-11', '2026-05-12'),
    correction: fc.oneof(
      fc.record({
        about: fc.constant('stay'),
        volunteer: volunteerId,
        of: fc.option(fc.nat(12).map((n) => `tap${n}`)),
        from: instant,
        until: fc.option(instant),
      }),
      fc.record({
        about: fc.constant('stages'),
        done: fc.array(fc.record({ prep: prepId, stage, at: fc.option(instant), by: person }), {
          minLength: 1,
          maxLength: 2,
        }),
      }),
      fc.record({ about: fc.constant('note') }),
      fc.record({
        about: fc.constant('stage'),
        prep: prepId,
        stage: workStage,
        at: fc.option(instant, { nil: null }),
        by: fc.constantFrom('ada', null, 'zed'),
      }),
      fc.record({ about: fc.constant('lesson'), lesson: lessonId, start: instant, end: instant }),
      fc.record({
        about: fc.constant('ride'),
        lesson: lessonId,
        horse: horseId,
        minutes: fc.integer({ min: 0, max: 60 }),
      }),
    ),
    why: fc.constant('forgotten'),
  }),
  fc.record({
    kind: fc.constant('alertsRaised'),
    alerts: fc.array(
      fc.oneof(
        fc.record({ alert: fc.constantFrom('feetBy', 'behind'), about: prepId }),
        fc.record({ alert: fc.constant('openRole'), about: fc.constantFrom('L1', 'L2') }),
        fc.record({ alert: fc.constant('notKept'), about: fc.constant('readOnly') }),
      ),
      { minLength: 1, maxLength: 3 },
    ),
  }),
  fc.record({
    kind: fc.constant('horsePulled'),
    horse: horseId,
    why: words,
    hold: fc.constantFrom('today', 'instructor', 'farrier', 'vet'),
  }),
  fc.record({ kind: fc.constant('horseReleased'), horse: horseId, word: words }),
  fc.record({ kind: fc.constant('horseReleased'), horse: horseId, word: words, farrierWord: words }),
  fc.record({ kind: fc.constant('horseIsolated'), horse: horseId, why: words }),
  fc.record({ kind: fc.constant('isolationEnded'), horse: horseId }),
  fc.record({
    kind: fc.constant('farrierCame'),
    horse: horseId,
    date: fc.constantFrom('2026-03-09', '2026-05-11'),
  }),
  fc.record({ kind: fc.constant('conditionScored'), horse: horseId, score: fc.integer({ min: 1, max: 9 }) }),
  { weight: 2, arbitrary: fc.record({ kind: fc.constant('weatherRead'), reading }) },
  fc.record({
    kind: fc.constant('volunteerExpected'),
    volunteer: volunteerId,
    from: fc.option(instant),
    until: fc.option(instant),
  }),
  { weight: 2, arbitrary: findingTap },
  fc.record({ kind: fc.constant('findingRead'), finding: fc.nat(12).map((n) => `tap${n}`) }),
  fc.record({
    kind: fc.constant('standInsTaken'),
    changes: fc.array(
      fc.record({
        lesson: lessonId,
        place: placeId,
        horse: fc.option(horseId),
        tack: fc.constantFrom('t1', 't2', null),
      }),
      { minLength: 1, maxLength: 3 },
    ),
    work: fc.array(fc.record({ lesson: lessonId, place: placeId, to: volunteerId }), { maxLength: 2 }),
  }),
  fc.record({ kind: fc.constant('volunteerArrived'), volunteer: volunteerId }),
  fc.record({ kind: fc.constant('volunteerLeft'), volunteer: volunteerId }),
  fc.record({ kind: fc.constant('volunteerNotComing'), volunteer: volunteerId }),
  {
    weight: 3,
    arbitrary: fc.record({
      kind: fc.constant('workMoved'),
      pieces: fc.array(piece, { minLength: 1, maxLength: 4 }),
      to: fc.option(volunteerId),
      before: fc.option(piece),
    }),
  },
  fc.record({
    kind: fc.constant('lessonAdded'),
    lesson: plannedLesson,
  }),
  fc.record({ kind: fc.constant('lessonMoved'), lesson: lessonId, start: instant }),
  fc.record({
    kind: fc.constant('lessonShortened'),
    lesson: lessonId,
    minutes: fc.integer({ min: 5, max: 90 }),
  }),
  fc.record({ kind: fc.constant('lessonCancelled'), lesson: lessonId }),
  fc.record({ kind: fc.constant('placeCancelled'), lesson: lessonId, place: placeId }),
  fc.record({
    kind: fc.constant('placeHorseChanged'),
    lesson: lessonId,
    place: placeId,
    horse: fc.option(horseId),
    tack: fc.constantFrom('t1', 't2', null),
  }),
  fc.record({
    kind: fc.constant('recordSaved'),
    saved: fc.constant({ table: 'horses', record: horse('moss') }),
  }),
  fc.record({
    kind: fc.constant('recordSaved'),
    saved: fc.constantFrom(
      { table: 'riders', record: { id: 'r2', callName: 'Quill' } } as const,
      {
        table: 'helmets',
        record: { id: 'h1', name: 'Blue', boughtOn: '2022-05-01', knocked: false },
      } as const,
      {
        table: 'volunteers',
        record: { id: 'cho', name: 'Cho', clearances: ['coat'], private: { pace: 2, usualHours: [] } },
      } as const,
    ),
  }) as unknown as fc.Arbitrary<OpFact>,
  fc.record({
    kind: fc.constant('recordSaved'),
    saved: fc.constantFrom(...BOOK_RECORDS),
  }) as unknown as fc.Arbitrary<OpFact>,
  fc.record({
    kind: fc.constant('planTaken'),
    date: fc.constantFrom('2026-05-11', '2026-05-12'),
    lessons: fc.array(plannedLesson, { maxLength: 3 }),
    people: fc.array(
      fc.record({ volunteer: volunteerId, from: fc.option(instant), until: fc.option(instant) }),
      { maxLength: 2 },
    ),
  }),
  fc.record({
    kind: fc.constant('lessonPlanned'),
    lesson: lessonId,
    name: fc.constant('Planned'),
    start: instant,
    minutes: fc.integer({ min: 5, max: 90 }),
    arena: fc.constant(null),
    instructor: fc.constantFrom('ines', null),
  }),
  fc.record({
    kind: fc.constant('placesPlanned'),
    changes: fc.array(
      fc.record({
        lesson: lessonId,
        place: fc.record({
          id: placeId,
          rider: fc.constantFrom('r1', null),
          horse: fc.option(horseId),
          tack: fc.constantFrom('t1', 't2', null),
          leader: fc.option(volunteerId),
          sideWalkers: fc.array(volunteerId, { maxLength: 2 }),
        }),
      }),
      { minLength: 1, maxLength: 3 },
    ),
  }),
  fc.record({
    kind: fc.constant('recordsImported'),
    name: fc.constant('horses.csv'),
    put: fc.array(
      fc.constantFrom<TableRecord>(
        { table: 'horses', record: horse('fern', { name: 'Fern from a file' }) },
        { table: 'volunteers', record: { id: 'zed', name: 'Zed', clearances: [] } },
        { table: 'riders', record: { id: 'r2', callName: 'Sasha' } },
        { table: 'stalls', record: { id: 's1', name: 'Box 1', metres: 2 } },
      ),
      { maxLength: 3 },
    ),
    gone: fc.array(
      fc.constantFrom(
        { table: 'horses' as const, id: 'moss' },
        { table: 'volunteers' as const, id: 'zed' },
        { table: 'riders' as const, id: 'r2' },
        { table: 'riders' as const, id: 'r1' },
      ),
      { maxLength: 2 },
    ),
  }),
  fc.record({
    kind: fc.constant('recordRetired'),
    table: fc.constantFrom(
      'horses',
      'riders',
      'volunteers',
      'helmets',
      'pattern',
      'planned',
      'terms',
      'exceptions',
      'shifts',
    ),
    id: fc.oneof(horseId, volunteerId, fc.constantFrom('r1', 'h1', 'w1', 'once', 'spring')),
  }),
  fc.record({ kind: fc.constant('rulesChanged'), rules: fc.constant(DEFAULT_RULES) }),
  fc.constantFrom<OpFact[]>(
    { kind: 'ruleSet', path: 'warmUpMinutes', value: 20 },
    { kind: 'ruleSet', path: 'sharedPrepGapMinutes', value: 5 },
    { kind: 'ruleSet', path: 'afterStages', value: ['untack', 'away'] },
    { kind: 'ruleSet', path: 'care.findings.levels.shoe-lost', value: 'call-now' },
    { kind: 'ruleSet', path: 'care.findings.levels.shoe-lost' },
  ),
  fc.record({
    kind: fc.constant('barnNamed'),
    name: fc.constant('Other'),
    zone: fc.constant('Europe/Berlin'),
  }),
  fc.record({
    kind: fc.constant('dayOpened'),
    date: fc.constantFrom('2026-05-10', '2026-05-11', '2026-05-12'),
  }),
  { weight: 3, arbitrary: fc.record({ kind: fc.constant('undone'), op: fc.nat(12).map((n) => `tap${n}`) }) },
);

/** Ops in the order they were tapped; ids `tap0`, `tap1`, … so that an undo can name one of them. */
export function ops(fact: fc.Arbitrary<OpFact>, maxLength = 14): fc.Arbitrary<Op[]> {
  return fc
    .array(
      fc.record({
        by: person,
        device: fc.constantFrom('d1', 'd2'),
        tappedAt: instant,
        fact,
      }),
      { maxLength },
    )
    .map((list) => list.map((op, i): Op => ({ ...op, id: `tap${i}` })));
}
