/** Times from paper as people type them. */
import { instantAt } from '../../time/zone.ts';

export type Typed =
  | { readonly kind: 'nothing' }
  | { readonly kind: 'time'; readonly at: number }
  /** Ticked without a time. */
  | { readonly kind: 'done' }
  /** Not a time of day. */
  | { readonly kind: 'unclear' };

const TIME = /^(\d{1,2})[:.h ]?(\d{2})$/;

/**
 * `13:05`, `13.05`, `1305` and `905` are times on `date` in the barn's `zone`, on a clock of 24 hours; `x` or `ok` a tick
 * without one. A time is never guessed: `1:05` is five past one at night.
 */
export function readTyped(text: string, date: string, zone: string): Typed {
  const plain = text.trim().toLowerCase();
  if (plain === '') return { kind: 'nothing' };
  if (['x', 'ok', '✓'].includes(plain)) return { kind: 'done' };
  const [, hours = '', minutes = ''] = TIME.exec(plain) ?? [];
  if (hours === '' || Number(hours) > 23 || Number(minutes) > 59) return { kind: 'unclear' };
  return { kind: 'time', at: instantAt({ date, time: `${hours.padStart(2, '0')}:${minutes}` }, zone) };
}
