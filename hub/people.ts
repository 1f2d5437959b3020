/**
 * What is held of one person: given out whole, and erased. Erasing takes the record away at once; every file of the hub's
 * folder is cleared at the hub's next start, when nobody writes to them.
 */
import type { IncomingMessage, ServerResponse } from 'node:http';
import * as z from 'zod/mini';
import { own } from '#core/barn/basics.ts';
import { Id } from '#core/barn/fields.ts';
import { type Board, Board as BoardSchema } from '#core/day/board.ts';
import { namesOf, PEOPLE_TABLES, withoutPerson, type PeopleTable } from '#core/day/forget.ts';
import type { Entry, Op } from '#core/day/ops.ts';
import { usedWhere } from '#core/day/usedWhere.ts';
import { parseFrame } from '#core/wire/frame.ts';
import type { EraseAnswer } from '#core/wire/people.ts';
import type { Endpoint } from './endpoints.ts';
import type { Answer } from './ledger.ts';
import { readText } from './readBody.ts';
import { erasingIn, noteErasing } from './storage/erasing.ts';
import type { Storage } from './storage/storage.ts';

const PATH = '/people/';

/** An erasing's body is some hundred bytes. */
const MOST_BYTES = 4096;

/** More days than any hub keeps. */
const ALL_DAYS = 100_000;

const EraseAsk = z.object({ by: z.nullable(Id), confirm: z.string().check(z.maxLength(100)) });

type PeopleParts = {
  /** Null: kept in memory only, where nothing outlasts the hub. */
  readonly folder: string | null;
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
        const held = JSON.stringify(await heldOf(person, parts), null, 2);
        const type = { 'Content-Type': 'application/json; charset=utf-8', 'Cache-Control': 'no-store' };
        response.writeHead(200, {
          ...type,
          'Content-Disposition': `attachment; filename="${person.id}.json"`,
        });
        response.end(held);
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

/** Everything with this person's id in it: the record, what is planned, today, and the days that are over. */
async function heldOf({ table, id }: Person, { board, storage, dayEntries }: PeopleParts): Promise<unknown> {
  const { barn, day } = board();
  const has = (value: unknown): boolean => JSON.stringify(value).includes(`"${id}"`);
  const { days } = await storage.days(ALL_DAYS);
  return {
    record: own<unknown>(barn[table], id),
    planned: [barn.book.pattern, barn.book.planned, barn.book.shifts].flatMap((records) =>
      Object.values<unknown>(records).filter(has),
    ),
    today: {
      date: day.date,
      lessons: Object.values(day.lessons).filter(has),
      here: own(day.hands, id) ?? null,
    },
    todayEntries: (await dayEntries()).filter(has),
    days: days.filter(has).map(({ date, day: past, entries }) => ({
      date,
      lessons: Object.values(past.lessons).filter(has),
      here: own(past.hands, id) ?? null,
      entries: entries.filter(has),
    })),
  };
}

async function erase(
  { table, id, name }: Person,
  body: string | null,
  device: string,
  { folder, board, take, newId, barnNow }: PeopleParts,
): Promise<EraseAnswer> {
  const asked = body === null ? null : parseFrame(EraseAsk, body);
  if (asked?.confirm !== name) return { erased: false, why: 'otherName' };
  const now = board();
  if (usedWhere(now, table, id).now.length > 0 || own(now.day.hands, id))
    return { erased: false, why: 'onToday' };
  const person = { id, as: newId(), names: namesOf(now.barn, table, id) };
  // An id that is a word of the records as well could not be told from it.
  if (!BoardSchema.safeParse(withoutPerson(now, person)).success) return { erased: false, why: 'unclearId' };
  const noted = folder === null ? [] : await erasingIn(folder);
  if (folder !== null) await noteErasing(folder, [...noted, person]);
  const fact = { kind: 'recordRetired', table, id } as const;
  const answer = await take({ id: newId(), device, by: asked.by, tappedAt: barnNow(), fact });
  if (answer && !answer.why) return { erased: true, filesAt: folder === null ? 'now' : 'nextStart' };
  if (folder !== null) await noteErasing(folder, noted);
  return { erased: false, why: answer ? 'onToday' : 'readOnly' };
}

/** `/people/riders/ID`. */
function personAt({ url = '' }: IncomingMessage, { barn }: Board): Person | null {
  const [table, id = ''] = url.slice(PATH.length).split('?')[0]?.split('/') ?? [];
  const known = PEOPLE_TABLES.find((one) => one === table);
  if (known === 'volunteers') {
    const found = own(barn.volunteers, id);
    return found ? { table: known, id, name: found.name } : null;
  }
  const found = known && own(barn.riders, id);
  return known && found ? { table: known, id, name: found.callName } : null;
}

function say(response: ServerResponse, answer: EraseAnswer): void {
  response.writeHead(answer.erased ? 200 : 409, {
    'Content-Type': 'application/json',
    'Cache-Control': 'no-store',
  });
  response.end(JSON.stringify(answer));
}
