/**
 * What is held of one person: given out whole, and erased. Erasing takes the record away, then clears every file of the hub's
 * folder; what cannot be done now the hub's next start does.
 */
import type { IncomingMessage, ServerResponse } from 'node:http';
import * as z from 'zod/mini';
import type { Barn } from '#core/barn/barn.ts';
import { own } from '#core/barn/basics.ts';
import { Id } from '#core/barn/fields.ts';
import { type Board, Board as BoardSchema } from '#core/day/board.ts';
import { nameIn, namesOf, PEOPLE_TABLES, withoutPerson, type PeopleTable } from '#core/day/forget.ts';
import type { Entry, Op } from '#core/day/ops.ts';
import { heldOf, type Held } from '#core/exchange/person.ts';
import { usedWhere } from '#core/day/usedWhere.ts';
import { parseFrame } from '#core/wire/frame.ts';
import type { EraseAnswer } from '#core/wire/people.ts';
import type { Endpoint } from './endpoints.ts';
import type { Forgetting } from './forgetting.ts';
import type { Answer } from './ledger.ts';
import { readText } from './readBody.ts';
import type { Storage } from './storage/storage.ts';

const PATH = '/people/';

/** An erasing's body is some hundred bytes. */
const MOST_BYTES = 4096;

/** More days than any hub keeps. */
const ALL_DAYS = 100_000;

const EraseAsk = z.object({ by: z.nullable(Id), confirm: z.string().check(z.maxLength(100)) });

type PeopleParts = {
  readonly forgetting: Pick<Forgetting, 'note' | 'erase'>;
  readonly storage: Pick<Storage, 'days'>;
  readonly board: () => Board;
  readonly dayEntries: () => Promise<readonly Entry[]>;
  readonly take: (op: Op) => Promise<Answer | null>;
  readonly newId: () => string;
  readonly barnNow: () => number;
};

type Person = { readonly table: PeopleTable; readonly id: string; readonly name: string };

export function peopleEndpoints(parts: PeopleParts): Endpoint[] {
  return [
    {
      method: 'GET',
      path: PATH,
      may: 'coordinator',
      answer: async (request, response) => {
        const person = personAt(request, parts.board());
        if (!person) return void response.writeHead(404).end();
        const { held, barn } = await everythingOf(person, parts);
        const { writePerson } = await import('#core/exchange/csv/person.ts');
        const isTable = (request.url ?? '').endsWith('?as=csv');
        response.writeHead(200, {
          'Content-Type': `${isTable ? 'text/csv' : 'application/json'}; charset=utf-8`,
          'Cache-Control': 'no-store',
          'Content-Disposition': `attachment; filename="${person.id}.${isTable ? 'csv' : 'json'}"`,
        });
        response.end(isTable ? writePerson(held, barn, person.id) : JSON.stringify(held, null, 2));
      },
    },
    {
      method: 'DELETE',
      path: PATH,
      may: 'coordinator',
      answer: async (request, response, who) => {
        const person = personAt(request, parts.board());
        if (!person) return void response.writeHead(404).end();
        const device = who.is === 'tablet' ? who.device : 'people';
        say(response, await erase(person, await readText(request, MOST_BYTES), device, parts));
      },
    },
  ];
}

async function everythingOf(
  { table, id }: Person,
  { board, storage, dayEntries }: PeopleParts,
): Promise<{ held: Held; barn: Barn }> {
  const { days } = await storage.days(ALL_DAYS);
  const entries = await dayEntries();
  const now = board();
  const { date } = now.day;
  const today = date === null ? [] : [{ date, day: now.day, entries }];
  return { held: heldOf(now, table, id, [...days, ...today]), barn: now.barn };
}

async function erase(
  { table, id, name }: Person,
  body: string | null,
  device: string,
  { forgetting, board, take, newId, barnNow }: PeopleParts,
): Promise<EraseAnswer> {
  const asked = body === null ? null : parseFrame(EraseAsk, body);
  if (asked?.confirm !== name) return { erased: false, why: 'otherName' };
  const now = board();
  if (usedWhere(now, table, id).now.length > 0 || own(now.day.hands, id))
    return { erased: false, why: 'onToday' };
  if (isLastCoordinator(now.barn, id)) return { erased: false, why: 'lastCoordinator' };
  const person = { id, as: newId(), names: namesOf(now.barn, table, id) };
  // An id that is a word of the records as well could not be told from it.
  if (!BoardSchema.safeParse(withoutPerson(now, person)).success) return { erased: false, why: 'unclearId' };
  const takeOff = await forgetting.note(person);
  const fact = { kind: 'recordRetired', table, id } as const;
  const answer = await take({ id: newId(), device, by: asked.by, tappedAt: barnNow(), fact });
  if (answer && !answer.why) {
    return { erased: true, filesAt: (await forgetting.erase([person])) ? 'now' : 'nextStart' };
  }
  await takeOff();
  return { erased: false, why: answer ? 'onToday' : 'readOnly' };
}

/** `/people/riders/ID`. */
function personAt({ url = '' }: IncomingMessage, { barn }: Board): Person | null {
  const [table, id = ''] = url.slice(PATH.length).split('?')[0]?.split('/') ?? [];
  const known = PEOPLE_TABLES.find((one) => one === table);
  if (known === undefined) return null;
  const name = nameIn(barn, known, id);
  return name === null ? null : { table: known, id, name };
}

/** Without one nobody could unlock a tablet any more. */
function isLastCoordinator({ staff }: Barn, id: string): boolean {
  const coordinators = Object.values(staff).filter(({ role }) => role === 'coordinator');
  return coordinators.length === 1 && coordinators[0]?.id === id;
}

function say(response: ServerResponse, answer: EraseAnswer): void {
  response.writeHead(answer.erased ? 200 : 409, {
    'Content-Type': 'application/json',
    'Cache-Control': 'no-store',
  });
  response.end(JSON.stringify(answer));
}
