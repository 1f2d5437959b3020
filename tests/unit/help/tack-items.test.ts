/** Names of tack as lists have them, in English and Spanish: trade words, common practice, no source. */
import { expect, test } from 'vitest';
import { tackKind } from '#core/help/tackItems.ts';

test.each([
  ['English saddle', 'saddle'],
  ['Western saddle', 'saddle'],
  ['Saddle pad', 'pad'],
  ['Wool blanket', 'pad'],
  ['Girth', 'girth'],
  ['Vaulting surcingle', 'girth'],
  ['Bridle', 'bridle'],
  ['Halter bridle', 'halter'],
  ['Rainbow reins', 'reins'],
  ['Safety stirrups', 'stirrups'],
  ['Lead rope', 'lead'],
  ['Silla inglesa', 'saddle'],
  ['Sudadero', 'pad'],
  ['Cincha', 'girth'],
  ['Cabezada', 'bridle'],
  ['Jáquima', 'halter'],
  ['Riendas de colores', 'reins'],
  ['Estribos de seguridad', 'stirrups'],
  ['Ramal', 'lead'],
  ['Breastplate', null],
  ['Fly mask', null],
])('%s is drawn as %s', (item, kind) => expect(tackKind(item)).toBe(kind));
