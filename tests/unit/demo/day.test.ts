import { describe, expect, it } from 'vitest';
import { asks, isCleared } from '#core/barn/stage.ts';
import { judgeLoad } from '#core/care/load.ts';
import { Board } from '#core/day/board.ts';
import { pieceParts, stagesOf } from '#core/day/pieces.ts';
import { lessonEnd, liveBookings } from '#core/day/preps.ts';
import { wallTimeAt } from '#core/time/zone.ts';
import { COORDINATOR, DEMO_ZONE } from '../../../demo/barn.ts';
import { demoBoard } from '../../../demo/day.ts';
import { LOST_SHOE } from '../../../demo/script.ts';

const DATE = '2026-05-12';
const board = demoBoard(DATE);
const { barn, day } = board;
const lessons = Object.values(day.lessons);
const preps = Object.values(day.preps);

describe('the invented barn', () => {
  it('is a board as the hub takes it', () => {
    expect(Board.safeParse(JSON.parse(JSON.stringify(board))).success).toBe(true);
    expect(demoBoard(DATE)).toEqual(board);
  });

  it('has the size of a small programme', () => {
    expect(Object.keys(barn.horses)).toHaveLength(14);
    expect(Object.keys(barn.volunteers)).toHaveLength(10);
    expect(Object.values(barn.staff).map((one) => one.role)).toEqual([
      'coordinator',
      'instructor',
      'instructor',
    ]);
    expect(barn.staff[COORDINATOR]?.role).toBe('coordinator');
    expect(Object.keys(barn.arenas)).toHaveLength(2);
    expect(lessons).toHaveLength(5);
    for (const lesson of lessons) {
      expect(lesson.places.length).toBeGreaterThanOrEqual(3);
      expect(lesson.places.length).toBeLessThanOrEqual(5);
      expect(lesson.minutes).toBeGreaterThanOrEqual(30);
      expect(lesson.minutes).toBeLessThanOrEqual(45);
      expect(wallTimeAt(lesson.start, DEMO_ZONE).date).toBe(DATE);
    }
  });

  it('keeps riders behind ids that say nothing about them', () => {
    for (const rider of Object.values(barn.riders)) {
      expect(rider.id).toMatch(/^r\d+$/);
      expect(rider.private?.fullName).toContain(rider.callName);
    }
    const shown = [...Object.values(barn.horses), ...Object.values(barn.volunteers), ...lessons].map(
      ({ name }) => name.toLowerCase(),
    );
    for (const { callName } of Object.values(barn.riders))
      expect(shown).not.toContain(callName.toLowerCase());
  });

  // At a glance from metres away: no two names of horses begin alike. Common practice, no source.
  it('names horses that are told apart by their first letter', () => {
    const initials = Object.values(barn.horses).map(({ name }) => name[0]);
    expect(new Set(initials).size).toBe(initials.length);
  });

  // Nature: nobody and no horse is in two lessons at one time.
  it('asks nobody and no horse to be in two places at once', () => {
    const parts = liveBookings(day).flatMap(({ lesson, place }) =>
      [place.horse, place.leader, ...place.sideWalkers, place.rider, lesson.instructor]
        .filter((id) => id !== null)
        .map((id) => ({ id, lesson })),
    );
    for (const a of parts) {
      for (const b of parts) {
        const both = a.id === b.id && a.lesson.id < b.lesson.id;
        if (both)
          expect(Math.min(lessonEnd(a.lesson), lessonEnd(b.lesson))).toBeLessThanOrEqual(
            Math.max(a.lesson.start, b.lesson.start),
          );
      }
    }
    for (const { places } of lessons) {
      const horses = places.map((place) => place.horse);
      expect(new Set(horses).size).toBe(horses.length);
    }
  });

  // A leader is cleared to lead, a side-walker to side-walk: common practice, no source.
  it('lets only cleared people lead, side-walk and prepare', () => {
    const has = (id: string) => barn.volunteers[id]?.clearances ?? [];
    for (const { place } of liveBookings(day)) {
      if (place.leader !== null) expect(has(place.leader)).toContain('lead');
      for (const id of place.sideWalkers) expect(has(id)).toContain('side-walk');
    }
    for (const [id, { queue }] of Object.entries(day.hands)) {
      for (const piece of queue) {
        const parts = pieceParts(piece);
        const horse = barn.horses[day.preps[parts?.prep ?? '']?.horse ?? ''];
        expect(parts && horse && isCleared(has(id), asks(horse.experiencedFor, parts.stage))).toBe(true);
      }
    }
  });

  // 20 % with tack, the rules' own sourced default (Powell and others 2008): see src/care/load.ts.
  it('puts no rider on a horse that may not carry them, nor on the stand-in', () => {
    const judged = liveBookings(day).flatMap(({ place }) => {
      const horses = place.id === LOST_SHOE.place ? [place.horse, LOST_SHOE.standIn] : [place.horse];
      const rider = barn.riders[place.rider ?? '']?.private;
      return horses.map((id) => {
        const horse = barn.horses[id ?? ''];
        return judgeLoad(barn.rules.care, {
          riderKg: rider?.weightKg ?? null,
          riderBalance: rider?.balanced ? 'balanced' : 'unbalanced',
          tackKg: horse?.tackLists.find((list) => list.id === place.tack)?.kg ?? null,
          horseWeight: horse?.private?.weight ?? null,
          pony: horse?.private?.pony ?? false,
          condition: null,
          horseLimit: null,
        }).kind;
      });
    });
    // One rider has not been weighed, so that a newcomer sees what "cannot say" looks like.
    expect(judged.filter((kind) => kind === 'cannot-say')).toHaveLength(1);
    expect(judged.filter((kind) => kind === 'does-not-fit')).toHaveLength(0);
  });

  it('has approved horses for every rider', () => {
    for (const { place } of liveBookings(day)) {
      expect(barn.riders[place.rider ?? '']?.private?.approvedHorses).toContain(place.horse);
    }
    const moved = day.lessons[LOST_SHOE.lesson]?.places.find(({ id }) => id === LOST_SHOE.place);
    expect(barn.riders[moved?.rider ?? '']?.private?.approvedHorses).toContain(LOST_SHOE.standIn);
  });

  it('shows a shared prep, a change of tack, a horse prepared twice and one that rests', () => {
    expect(preps.some((prep) => prep.kind === 'full' && prep.places.length > 1)).toBe(true);
    expect(preps.filter((prep) => prep.kind === 'tackChange').map((prep) => prep.horse)).toEqual(['clay']);
    expect(preps.filter((prep) => prep.horse === 'dot' && prep.kind === 'full')).toHaveLength(2);
    expect(barn.horses['ziggy']?.holds.map(({ kind }) => kind)).toEqual(['vet']);
    expect(Object.values(barn.horses).some((horse) => horse.experiencedFor.length > 0)).toBe(true);
    const feet = new Set(Object.values(barn.horses).map((horse) => JSON.stringify(horse.feet)));
    expect(feet.size).toBeGreaterThanOrEqual(3);
  });

  it('gives whole horses mostly, each piece to one person, and leaves one piece to whoever is free', () => {
    const given = Object.values(day.hands).flatMap(({ queue }) => queue);
    expect(new Set(given).size).toBe(given.length);
    const all = preps.flatMap((prep) => stagesOf(prep).map((stage) => `${prep.id}:${stage}`));
    expect(all.filter((piece) => !given.includes(piece))).toEqual(['clay.2:tack']);
    const whole = preps.filter((prep) =>
      Object.values(day.hands).some(({ queue }) =>
        stagesOf(prep).every((stage) => queue.includes(`${prep.id}:${stage}`)),
      ),
    );
    expect(whole.length).toBeGreaterThan(preps.length / 2);
  });
});
