/**
 * Calendar addresses: `GET /calendar/SECRET.ics` for whoever has the secret; made, listed and revoked by a coordinator below
 * `/feeds`. `feeds.json` has each secret's SHA-256 and how often each event has changed.
 */
import { createHash } from 'node:crypto';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { join } from 'node:path';
import * as z from 'zod/mini';
import { own } from '#core/barn/basics.ts';
import { Instant } from '#core/barn/fields.ts';
import type { Board } from '#core/day/board.ts';
import type { Forgotten } from '#core/day/forget.ts';
import type { FeedEvent, Revision } from '#core/exchange/calendar/write.ts';
import { parseFrame } from '#core/wire/frame.ts';
import { FeedAsk, FeedKnown, type FeedMade } from '#core/wire/feeds.ts';
import { languageFor } from '#core/words/languages.ts';
import type { Endpoint } from './endpoints.ts';
import { hashOf, isSameHash, newToken } from './gate/token.ts';
import { readText } from './readBody.ts';
import { damaged, SealedFile } from './storage/sealedFile.ts';

export const FEEDS_NAME = 'feeds.json';

const CALENDAR = '/calendar/';
const FEEDS = '/feeds/';
const MOST_FEEDS = 200;
const MOST_BYTES = 4096;

const Kept = z.extend(FeedKnown, {
  hash: z.string(),
  language: z.string(),
  /** By the event's uid: a print of what it said last, how often that has changed, and when last. */
  said: z.record(z.string(), z.object({ print: z.string(), sequence: z.int(), stamp: Instant })),
});
type Kept = z.infer<typeof Kept>;
const Feeds = z.object({ feeds: z.array(Kept) });

type FeedsParts = {
  /** Null: kept in memory. */
  readonly folder: string | null;
  readonly board: () => Board;
  readonly barnNow: () => number;
  readonly newId: () => string;
};

type SetUpFeeds = {
  readonly endpoints: readonly Endpoint[];
  /** Strikes out the addresses of these people. On disk when this resolves. */
  readonly forget: (people: readonly Forgotten[]) => Promise<void>;
};

/** Throws StartError when the file is damaged. */
export async function setUpFeeds(parts: FeedsParts): Promise<SetUpFeeds> {
  const file = parts.folder === null ? null : new SealedFile(join(parts.folder, FEEDS_NAME));
  let feeds = await read(file);
  let writing: Promise<void> = Promise.resolve();
  const keep = (next: readonly Kept[]): Promise<void> => {
    feeds = next;
    writing = writing.catch(() => {}).then(() => file?.write({ feeds: next }));
    return writing;
  };
  const forget: SetUpFeeds['forget'] = async (people) => {
    const left = feeds.filter(({ of }) => of.is !== 'person' || !people.some(({ id }) => id === of.person));
    if (left.length < feeds.length) await keep(left);
  };
  const endpoints: Endpoint[] = [
    {
      method: 'GET',
      path: CALENDAR,
      may: 'anybody',
      answer: async (request, response) => {
        const hash = hashOf(secretIn(request));
        const feed = feeds.find((one) => isSameHash(one.hash, hash));
        if (!feed) return void response.writeHead(404).end();
        const { text, said } = await written(feed, parts);
        if (JSON.stringify(said) !== JSON.stringify(feed.said)) {
          await keep(feeds.map((one) => (one.id === feed.id ? { ...one, said } : one)));
        }
        response.writeHead(200, {
          'Content-Type': 'text/calendar; charset=utf-8',
          'Cache-Control': 'no-store',
          'Referrer-Policy': 'no-referrer',
        });
        response.end(text);
      },
    },
    {
      method: 'GET',
      path: FEEDS,
      may: 'coordinator',
      answer: (_request, response) =>
        json(response, 200, { feeds: feeds.map(({ id, of, madeAt }): FeedKnown => ({ id, of, madeAt })) }),
    },
    {
      method: 'POST',
      path: FEEDS,
      may: 'coordinator',
      answer: async (request, response) => {
        const body = await readText(request, MOST_BYTES);
        const asked = body === null ? null : parseFrame(FeedAsk, body);
        if (!asked || feeds.length >= MOST_FEEDS) return json(response, 400, {});
        const secret = newToken();
        const madeAt = parts.barnNow();
        const made = { id: parts.newId(), hash: hashOf(secret), ...asked, madeAt, said: {} };
        await keep([...feeds, made]);
        json(response, 200, { id: made.id, path: `${CALENDAR}${secret}.ics` } satisfies FeedMade);
      },
    },
    {
      method: 'DELETE',
      path: FEEDS,
      may: 'coordinator',
      answer: async ({ url = '' }, response) => {
        const id = url.slice(FEEDS.length);
        if (!feeds.some((one) => one.id === id)) return void response.writeHead(404).end();
        await keep(feeds.filter((one) => one.id !== id));
        response.writeHead(204).end();
      },
    },
  ];
  return { endpoints, forget };
}

async function read(file: SealedFile | null): Promise<readonly Kept[]> {
  if (!file || (await file.read()) === null) return [];
  const parsed = Feeds.safeParse(file.raw?.data);
  if (!file.raw?.isWhole || !parsed.success) throw damaged(FEEDS_NAME, 'checksum');
  return parsed.data.feeds;
}

/** The calendar, and what has been said with it. */
async function written(
  { of, language, said: before }: Kept,
  { board, barnNow }: FeedsParts,
): Promise<{ text: string; said: Kept['said'] }> {
  const now = barnNow();
  // Loaded when somebody asks: what writes calendars takes as much memory as the journal's part of the hub.
  const { lessonFeed, personFeed } = await import('#core/exchange/calendar/feeds.ts');
  const { writeCalendar } = await import('#core/exchange/calendar/write.ts');
  const words = (await languageFor([language]).load.exchange()).FEED_WORDS;
  const events =
    of.is === 'lessons'
      ? lessonFeed(board(), now, of.withRiders)
      : personFeed(board(), of.person, now, words);
  const said = Object.fromEntries(events.map((event) => [event.uid, revised(event, before, now)]));
  const revisionOf = ({ uid }: FeedEvent): Revision => said[uid] ?? { sequence: 0, stamp: now };
  return { text: writeCalendar(board().barn.name, events, revisionOf), said };
}

/** RFC 5545 §3.8.7.4: the number goes up with each change. */
function revised(event: FeedEvent, before: Kept['said'], now: number): Kept['said'][string] {
  const print = createHash('sha256').update(JSON.stringify(event)).digest('base64url');
  const last = own(before, event.uid);
  if (last?.print === print) return last;
  return { print, sequence: last ? last.sequence + 1 : 0, stamp: now };
}

function secretIn({ url = '' }: IncomingMessage): string {
  return url.slice(CALENDAR.length).replace(/\.ics$/, '');
}

function json(response: ServerResponse, status: number, body: object): void {
  response.writeHead(status, { 'Content-Type': 'application/json', 'Cache-Control': 'no-store' });
  response.end(JSON.stringify(body));
}
