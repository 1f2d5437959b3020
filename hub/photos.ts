/** Pictures of horses and tack over HTTP. Tablets may keep a picture for good; records carry its name. */
import type { ServerResponse } from 'node:http';
import { PhotoName } from '#core/barn/horse.ts';
import type { Barn } from '#core/barn/barn.ts';
import type { Endpoint } from './endpoints.ts';
import { readBody } from './readBody.ts';
import { photoName, type PhotoShelf } from './storage/photoFolder.ts';

/** As the page sends them: shrunk before. */
export const MOST_PHOTO_BYTES = 60_000;

/** Two hundred horses with a picture each, and as many of tack. */
const MOST_PHOTOS = 400;

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
        const name = photoName(bytes);
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
