/** How a record is called in a list, what stands under its name, and how the list is ordered. */
import type { Barn, Table, TableRecord } from '#core/barn/barn.ts';
import { recordsOf } from '#core/barn/tables.ts';
import { own } from '#core/barn/basics.ts';
import { say } from '../../words.ts';

export type Titled = {
  readonly id: string;
  readonly title: string;
  readonly more: string;
  readonly order: string;
};

// One for all comparisons: a list of 2,000 took twelve times as long when each made its own.
const ORDER = new Intl.Collator(undefined, { numeric: true });

/** All records of a table by their order. */
export function titledOf(barn: Barn, table: Table): Titled[] {
  return Object.values(recordsOf(barn, table))
    .map((record) => titled(barn, { table, record } as TableRecord))
    .sort((a, b) => ORDER.compare(a.order, b.order) || (a.id < b.id ? -1 : 1));
}

export function titleOf(barn: Barn, table: Table, id: string): string {
  const record = own(recordsOf(barn, table), id);
  return record ? titled(barn, { table, record } as TableRecord).title : id;
}

function titled(barn: Barn, saved: TableRecord): Titled {
  const weekday = (n: number): string => say.RECORD_WEEKDAY[n - 1] ?? '';
  const row = (title: string, more = '', order = title): Titled => ({
    id: saved.record.id,
    title,
    more,
    order: order.toLocaleLowerCase(),
  });
  switch (saved.table) {
    case 'horses':
      return row(saved.record.name, own(barn.stalls, saved.record.stall)?.name ?? '');
    case 'volunteers':
      return row(saved.record.name, saved.record.clearances.map((one) => say.CLEARANCE_WORD[one]).join(', '));
    case 'riders':
      return row(saved.record.callName, saved.record.private?.fullName ?? '');
    case 'staff':
      return row(saved.record.name, say.RECORD_ROLE[saved.record.role]);
    case 'arenas':
    case 'helmets':
      return row(saved.record.name);
    case 'stalls':
      return row(saved.record.name, `${saved.record.metres} m`);
    case 'pattern': {
      const { name, weekday: day, time, term } = saved.record;
      const inTerm = term === null ? '' : (own(barn.book.terms, term)?.name ?? '');
      return row(`${weekday(day)} ${time}  ${name}`, inTerm, `${day} ${time} ${name}`);
    }
    case 'planned':
      return row(`${saved.record.date} ${saved.record.time}  ${saved.record.name}`);
    case 'terms':
      return row(saved.record.name, `${saved.record.from} – ${saved.record.until}`, saved.record.from);
    case 'exceptions': {
      const one = saved.record;
      const what = say.RECORD_WHAT[one.what];
      if (one.what === 'closed') return row(`${one.from} – ${one.until}  ${one.why}`, what);
      const lesson = own(barn.book.pattern, one.lesson)?.name ?? '';
      return row(
        `${one.date}  ${lesson}`,
        one.what === 'moved' ? `${what}: ${one.toDate} ${one.toTime}` : what,
      );
    }
    case 'shifts': {
      const { volunteer, on, from, until } = saved.record;
      const name = own(barn.volunteers, volunteer)?.name ?? '';
      const when = on.every === 'once' ? on.date : weekday(on.weekday);
      return row(
        name,
        `${when} ${from}–${until}`,
        `${name} ${on.every === 'week' ? on.weekday : on.date} ${from}`,
      );
    }
  }
}
