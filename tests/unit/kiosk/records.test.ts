/** What a record's form changes besides the field that was touched. What must hold is the project's own rule: common practice, no source. */
import './english.ts';
import { expect, test } from 'vitest';
import { smallBoard } from '../../properties/day-arbitraries.ts';
import { usedWhere } from '#core/day/usedWhere.ts';
import { checked } from '../../../kiosk/src/lib/parts/records/draft.ts';
import { afterChange, blankOf, changed, fieldsOf } from '../../../kiosk/src/lib/parts/records/fields.ts';

const TODAY = '2026-05-11';
const { barn } = smallBoard();
const fieldAt = (table: Parameters<typeof fieldsOf>[0], path: string) =>
  fieldsOf(table).find((field) => field.path === path)!;

test('another kind of exception asks for other things; the kind that stood already, and a word typed, change nothing else', () => {
  const closed = { id: 'x', what: 'closed', from: '2026-07-01', until: '2026-07-31', why: 'Summer' };
  const set = (path: string, value: unknown) =>
    afterChange('exceptions', closed, { ...closed, [path]: value }, path, TODAY);
  expect(set('what', 'closed')).toEqual(closed);
  expect(set('why', 'Holiday')).toEqual({ ...closed, why: 'Holiday' });
  expect(set('what', 'moved')).toMatchObject({ what: 'moved', date: TODAY, toDate: TODAY, why: 'Summer' });
});

test('a rider’s helmet that was hit is kept without its date, and goes with its last word', () => {
  const rider = { ...blankOf('riders', 'r9', barn, TODAY), callName: 'Kit' };
  const hit = changed(rider, fieldAt('riders', 'private.helmet.knocked'), true);
  expect(checked('riders', hit).faults).toBeNull();
  expect(hit).toMatchObject({ private: { helmet: { boughtOn: null, knocked: true } } });
  const not = changed(hit, fieldAt('riders', 'private.helmet.knocked'), false);
  expect((not['private'] as object) && Object.keys(not['private'] as object)).not.toContain('helmet');
});

test('a horse’s weight comes with its first figure and goes with it', () => {
  const horse = blankOf('horses', 'h9', barn, TODAY);
  const kg = fieldAt('horses', 'private.weight.kg');
  expect(changed(horse, kg, 480)).toMatchObject({ private: { weight: { kg: 480, how: 'scale' } } });
  expect(changed(changed(horse, kg, 480), kg, null)).toMatchObject({ private: { weight: null } });
});

test('retiring names the lessons of today and the shifts that end with it', () => {
  const board = smallBoard();
  const shift = {
    id: 's9',
    volunteer: 'ada',
    on: { every: 'once' as const, date: TODAY },
    from: '09:00',
    until: '12:00',
  };
  board.barn.book.shifts['s9'] = shift;
  expect(usedWhere(board, 'volunteers', 'ada').gone).toEqual(['s9']);
  expect(usedWhere(board, 'volunteers', 'cho').gone).toEqual([]);
  expect(usedWhere(board, 'horses', 'fern').now).toContain('L1');
});
