/** Advice on findings against what vets, farriers and associations publish. */
import { describe, expect, it } from 'vitest';
import { advise } from '#core/care/advise.ts';
import type { Foot } from '#core/care/feetOrder.ts';
import type { BodyPlace, Finding } from '#core/care/findings.ts';
import { DEFAULT_CARE_RULES } from '#core/care/rulesOfCare.ts';
import { source } from '../source.ts';

const rules = DEFAULT_CARE_RULES;
const on = (
  foot: Foot,
  kind: 'shoe-lost' | 'shoe-sprung' | 'shoe-twisted' | 'clinches-risen' | 'nail' | 'heat' | 'sore',
) => ({ on: 'foot', foot, kind }) satisfies Finding;
const crack = (blood: boolean, pain: boolean) =>
  ({ on: 'foot', foot: 'LF', kind: 'crack', blood, pain }) satisfies Finding;
const body = (place: BodyPlace, kind: 'rub' | 'sore' | 'skin-patch') =>
  ({ on: 'body', place, side: 'left', kind }) satisfies Finding;

it(
  'nail in the sole: left in, kept still, vet now',
  source('Cherry Creek Equine', 'Horse Illustrated', 'horsesport.com'),
  () => {
    expect(advise([on('RH', 'nail')], rules)).toMatchObject({
      level: 'call-now',
      whom: 'vet',
      holds: ['until-vet'],
      handling: ['leave-it-in', 'keep-still'],
    });
  },
);

it(
  'heat in both fore feet: no work, vet',
  source('Veterinary Evidence PICO, article 253: both fore hooves warm for over half a day'),
  () => {
    expect(advise([on('LF', 'heat'), on('RF', 'heat')], rules)).toMatchObject({
      level: 'call-now',
      whom: 'vet',
    });
  },
);

it(
  'heat in one foot, or in one front and one hind: compare, and wait for the instructor',
  source('Horse Side Vet Guide 981: compare feet, sun and exercise confuse'),
  () => {
    for (const findings of [
      [on('LF', 'heat')],
      [on('LF', 'heat'), on('RH', 'heat')],
      [on('LH', 'heat'), on('RH', 'heat')],
    ]) {
      expect(advise(findings, rules)).toMatchObject({
        level: 'wait',
        whom: 'instructor',
        handling: ['compare-feet'],
      });
    }
  },
);

it(
  'heat with pain in the same foot, or with a lame horse: vet',
  source('Northwest Equine Vets: signs of inflammation with lameness'),
  () => {
    expect(advise([on('LF', 'heat'), on('LF', 'sore')], rules)).toMatchObject({
      level: 'call-now',
      whom: 'vet',
    });
    expect(advise([on('LF', 'heat'), { on: 'gait', kind: 'uneven' }], rules).level).toBe('call-now');
    expect(advise([on('LF', 'heat'), on('RH', 'sore')], rules).level).toBe('off-today');
  },
);

it.each(['shoe-lost', 'shoe-sprung', 'shoe-twisted'] as const)(
  '%s: off until the farrier',
  source('Young Rider 2005 and others: not ridden with a shoe missing or loose', 'quiet, on soft ground'),
  (kind) => {
    expect(advise([on('LF', kind)], rules)).toMatchObject({
      level: 'off-today',
      whom: 'farrier',
      holds: ['until-farrier'],
      handling: ['soft-ground'],
    });
  },
);

it(
  'risen clinches: the shoe is likely loose, so somebody looks first',
  source('C. Hill 1998', 'EQUUS March 2016'),
  () => {
    expect(advise([on('LF', 'clinches-risen')], rules)).toMatchObject({ level: 'wait', whom: 'farrier' });
  },
);

describe(
  'a crack: blood? pain?',
  source('P. Reilly, New Bolton Center, The Horse, "Hoof-Care Triage"'),
  () => {
    it.each([
      [true, false],
      [false, true],
      [true, true],
    ])('blood %s, pain %s: vet', (blood, pain) => {
      expect(advise([crack(blood, pain)], rules)).toMatchObject({ level: 'call-now', whom: 'vet' });
    });
    it('neither: farrier, no emergency', () => {
      expect(advise([crack(false, false)], rules)).toMatchObject({ level: 'wait', whom: 'farrier' });
    });
  },
);

it('a horse that will not take weight: vet', source('AAEP scale, grade 5'), () => {
  expect(advise([{ on: 'gait', kind: 'will-not-take-weight' }], rules)).toMatchObject({
    level: 'call-now',
    whom: 'vet',
  });
});

it(
  'a sore where tack lies weighs more than one elsewhere',
  source(
    'Equine welfare standard, PATH Intl., in a secondary copy: sore backs before lessons',
    'tack places: common practice',
  ),
  () => {
    expect(advise([body('girth', 'sore')], rules).level).toBe('off-today');
    expect(advise([body('croup', 'sore')], rules).level).toBe('wait');
    expect(advise([body('withers', 'rub')], rules).level).toBe('wait');
    expect(advise([body('tail', 'rub')], rules).level).toBe('carry-on');
  },
);

it(
  'a skin patch: own kit only, hands washed',
  source('Equine Disease Communication Center', 'USDA-APHIS 2014'),
  () => {
    expect(advise([body('neck', 'skin-patch')], rules).handling).toEqual(['own-kit-only', 'wash-hands']);
  },
);
