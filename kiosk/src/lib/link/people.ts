/** Asks the hub to erase somebody. */
import type { PeopleTable } from '#core/day/forget.ts';
import { EraseAnswer } from '#core/wire/people.ts';

/** Where the hub gives out all that it holds of somebody. */
export function heldAt(table: PeopleTable, id: string, as: 'json' | 'csv' = 'json'): string {
  return `/people/${table}/${id}${as === 'csv' ? '?as=csv' : ''}`;
}

/** `confirm`: the person's name as it was typed. Null: the hub did not answer. */
export async function erasePerson(
  table: PeopleTable,
  id: string,
  confirm: string,
): Promise<EraseAnswer | null> {
  try {
    const body = JSON.stringify({ by: null, confirm });
    const response = await fetch(heldAt(table, id), { method: 'DELETE', body });
    return EraseAnswer.parse(await response.json());
  } catch {
    return null;
  }
}
