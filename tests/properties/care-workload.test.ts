/** More work is never better, and any number gives an answer or a typed refusal. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { DEFAULT_CARE_RULES } from '#core/care/rulesOfCare.ts';
import { judgeWorkload, type WorkInterval, type WorkloadCase } from '#core/care/workload.ts';
import { WorkloadRules } from '#core/care/workloadRules.ts';

const MINUTE_MS = 60_000;
const minuteOfDay = fc.integer({ min: 0, max: 23 * 60 });

const interval: fc.Arbitrary<WorkInterval> = fc
  .record({
    from: minuteOfDay,
    minutes: fc.integer({ min: 1, max: 90 }),
    wait: fc.option(fc.integer({ min: 0, max: 60 })),
    lesson: fc.option(fc.constantFrom('1', '2', '3', '4', '5')),
  })
  .map(({ from, minutes, wait, lesson }) => ({
    fromMs: from * MINUTE_MS,
    toMs: (from + minutes) * MINUTE_MS,
    inArenaUntilMs: wait === null ? null : (from + minutes + wait) * MINUTE_MS,
    lessonId: lesson,
  }));

const work: fc.Arbitrary<WorkloadCase> = fc.record({
  worked: fc.array(interval, { maxLength: 5 }),
  planned: fc.array(interval, { maxLength: 5 }),
  proposed: fc.option(interval),
  workedOnDaysBefore: fc.array(fc.boolean(), { maxLength: 10 }),
});

const rules = fc
  .record({
    minutesPerDay: fc.integer({ min: 15, max: 600 }),
    minutesInARow: fc.integer({ min: 15, max: 300 }),
    breakMinutes: fc.integer({ min: 5, max: 90 }),
    lessonsPerDay: fc.option(fc.integer({ min: 1, max: 8 })),
    daysInARow: fc.integer({ min: 1, max: 7 }),
    daysPerWeek: fc.integer({ min: 1, max: 7 }),
    arenaWaitCounts: fc.boolean(),
  })
  .map((each) => WorkloadRules.parse(each));

it('one more piece of work never turns a no into a yes', () => {
  fc.assert(
    fc.property(rules, work, interval, (barn, day, extra) => {
      const before = judgeWorkload(barn, day);
      const after = judgeWorkload(barn, { ...day, planned: [...day.planned, extra] });
      if (before.kind === 'cannot-say' || after.kind === 'cannot-say') throw new Error('all in range');
      expect(after.figures.minutesToday).toBeGreaterThanOrEqual(before.figures.minutesToday);
      expect(after.figures.longestStretchMinutes).toBeGreaterThanOrEqual(
        before.figures.longestStretchMinutes,
      );
      expect(after.figures.lessonsToday).toBeGreaterThanOrEqual(before.figures.lessonsToday);
      if (before.kind === 'does-not-fit') expect(after.kind).toBe('does-not-fit');
    }),
  );
});

it('staying in the arena longer and a worked day more never help', () => {
  fc.assert(
    fc.property(rules, work, interval, fc.integer({ min: 0, max: 60 }), (barn, day, last, wait) => {
      const staying = { ...last, inArenaUntilMs: (last.inArenaUntilMs ?? last.toMs) + wait * MINUTE_MS };
      const allWorked = day.workedOnDaysBefore.map(() => true);
      if (judgeWorkload(barn, { ...day, proposed: staying, workedOnDaysBefore: allWorked }).kind === 'fits') {
        expect(judgeWorkload(barn, { ...day, proposed: last }).kind).toBe('fits');
      }
    }),
  );
});

it('order and repetition of the same intervals change nothing', () => {
  fc.assert(
    fc.property(rules, work, (barn, day) => {
      const plain = judgeWorkload(barn, day);
      const turned = judgeWorkload(barn, {
        ...day,
        worked: [...day.planned].reverse(),
        planned: [...day.worked, ...day.planned],
      });
      expect(turned).toEqual(plain);
    }),
  );
});

it('minutes are never more than the stretch from first to last, nor less than the longest interval', () => {
  fc.assert(
    fc.property(work, (day) => {
      const barn = { ...DEFAULT_CARE_RULES.workload, arenaWaitCounts: false };
      const verdict = judgeWorkload(barn, day);
      if (verdict.kind === 'cannot-say') throw new Error('all in range');
      const all = [...day.worked, ...day.planned, ...(day.proposed ? [day.proposed] : [])];
      const lengths = all.map((each) => (each.toMs - each.fromMs) / MINUTE_MS);
      expect(verdict.figures.minutesToday).toBeGreaterThanOrEqual(Math.max(0, ...lengths));
      expect(verdict.figures.minutesToday).toBeLessThanOrEqual(lengths.reduce((sum, each) => sum + each, 0));
    }),
  );
});

it('any number at all is answered', () => {
  const any = fc.oneof(fc.double(), fc.constantFrom(NaN, Infinity, -Infinity, -0));
  fc.assert(
    fc.property(work, any, any, fc.option(any), (day, fromMs, toMs, inArenaUntilMs) => {
      const proposed = { fromMs, toMs, inArenaUntilMs, lessonId: null };
      const verdict = judgeWorkload(DEFAULT_CARE_RULES.workload, { ...day, proposed });
      const usable = Number.isFinite(fromMs) && Number.isFinite(toMs) && toMs >= fromMs;
      if (!usable) expect(verdict.kind).toBe('cannot-say');
      if (verdict.kind !== 'cannot-say') {
        for (const figure of Object.values(verdict.figures)) expect(Number.isFinite(figure)).toBe(true);
      }
    }),
  );
});
