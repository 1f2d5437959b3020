/**
 * Pictures of horses and tack. A picture's name is made from its bytes, so one name always shows the same picture and can
 * be kept by tablets for good; records carry the name. They stand as files beside the barn's data.
 */
import { createHash } from 'node:crypto';
import type { ServerResponse } from 'node:http';
import { mkdir, readdir, readFile, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { PhotoName } from '#core/barn/horse.ts';
import type { Barn } from '#core/barn/barn.ts';
import type { Endpoint } from './endpoints.ts';
import { readBody } from './readBody.ts';
import { writeWhole } from './storage/files.ts';

/** As the page sends them: shrunk before. */
export const MOST_PHOTO_BYTES = 60_000;

/** Two hundred horses with a picture each, and as many of tack. */
const MOST_PHOTOS = 400;

/** A picture no record names is dropped after this: until then a form that failed to save may be sent again. */
const UNUSED_FOR_MS = 30 * 86_400_000;

/** Where pictures are kept. */
export interface PhotoShelf {
  get(name: string): Promise<Buffer | null>;
  put(name: string, bytes: Buffer): Promise<void>;
  count(): Promise<number>;
  /** Drops what is older than `UNUSED_FOR_MS` at `now` and not in `used`. */
  sweep(used: ReadonlySet<string>, now: number): Promise<void>;
}

/** In `folder`, made with the first picture. */
export function photoFolder(folder: string): PhotoShelf {
  const names = async (): Promise<string[]> => {
    const found = await readdir(folder).catch(() => []);
    return found.filter((name) => PhotoName.safeParse(name).success);
  };
  return {
    get: (name) => readFile(join(folder, name)).catch(() => null),
    put: async (name, bytes) => {
      await mkdir(folder, { recursive: true, mode: 0o700 });
      await writeWhole(join(folder, name), bytes);
    },
    count: async () => (await names()).length,
    sweep: async (used, now) => {
      for (const name of await names()) {
        if (used.has(name)) continue;
        const path = join(folder, name);
        const { mtimeMs } = await stat(path);
        if (now - mtimeMs > UNUSED_FOR_MS) await rm(path);
      }
    },
  };
}

/** For a board that keeps nothing. */
export function photoMemory(): PhotoShelf {
  const kept = new Map<string, Buffer>();
  return {
    get: async (name) => kept.get(name) ?? null,
    put: async (name, bytes) => void kept.set(name, bytes),
    count: async () => kept.size,
    sweep: async () => {},
  };
}

/** Names of pictures the barn's records carry. */
export function photosIn({ horses }: Barn): Set<string> {
  return new Set(
    Object.values(horses).flatMap((horse) =>
      [horse.photo, ...horse.tackLists.map((list) => list.photo)].filter((name) => name !== undefined),
    ),
  );
}

type PhotosParts = { readonly shelf: PhotoShelf; readonly barn: () => Barn; readonly now: () => number };

/** `POST /photos` answers with `{ name }`; `GET /photos/<name>` with the picture. */
export function photosEndpoints({ shelf, barn, now }: PhotosParts): Endpoint[] {
  return [
    {
      method: 'GET',
      path: '/photos/',
      may: 'tablet',
      answer: async (request, response) => {
        const name = (request.url ?? '').split('?')[0]?.slice('/photos/'.length) ?? '';
        const bytes = PhotoName.safeParse(name).success ? await shelf.get(name) : null;
        const type = bytes && typeOf(bytes);
        if (!bytes || !type) return no(response, 404);
        response.writeHead(200, {
          'Content-Type': type,
          'Content-Length': bytes.length,
          'Cache-Control': 'private, max-age=31536000, immutable',
          'X-Content-Type-Options': 'nosniff',
        });
        response.end(request.method === 'HEAD' ? undefined : bytes);
      },
    },
    {
      method: 'POST',
      path: '/photos',
      may: 'coordinator',
      answer: async (request, response) => {
        const bytes = await readBody(request, MOST_PHOTO_BYTES);
        if (bytes === null) return no(response, 413);
        if (typeOf(bytes) === null) return no(response, 415);
        await shelf.sweep(photosIn(barn()), now());
        if ((await shelf.count()) >= MOST_PHOTOS) return no(response, 507);
        const name = createHash('sha256').update(bytes).digest('hex').slice(0, 32);
        await shelf.put(name, bytes);
        response.writeHead(201, { 'Content-Type': 'application/json', 'Cache-Control': 'no-store' });
        response.end(JSON.stringify({ name }));
      },
    },
  ];
}

function no(response: ServerResponse, status: number): void {
  response.writeHead(status, { 'Cache-Control': 'no-store' }).end();
}

/** By its first bytes (JPEG: ITU-T T.81, SOI marker; WebP: RFC 9649), whatever the sender calls it. Null: neither. */
function typeOf(bytes: Buffer): 'image/jpeg' | 'image/webp' | null {
  if (bytes.length > 3 && bytes.subarray(0, 3).equals(Buffer.from([0xff, 0xd8, 0xff]))) return 'image/jpeg';
  const isRiff = bytes.toString('latin1', 0, 4) === 'RIFF' && bytes.toString('latin1', 8, 12) === 'WEBP';
  return isRiff ? 'image/webp' : null;
}
