/**
 * The kiosk's built pages. All of them are read once, at the start, some hundred kilobytes: afterwards neither a rebuild
 * nor a failing disk can take a screen away from a tablet, or give it half of one build and half of another.
 */
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { extname, join } from 'node:path';
import { brotliCompressSync, gzipSync } from 'node:zlib';
import * as z from 'zod/mini';

export type Handler = (request: IncomingMessage, response: ServerResponse) => void;

type Page = {
  readonly type: string;
  readonly tag: string;
  /** File names with a hash of their content: what was fetched once stays right for good. */
  readonly forGood: boolean;
  readonly body: Buffer;
  /** Made by the build beside the file. */
  readonly br: Buffer | null;
  readonly gzip: Buffer | null;
};

const TYPES: Record<string, string> = {
  '.css': 'text/css; charset=utf-8',
  '.html': 'text/html; charset=utf-8',
  '.ico': 'image/x-icon',
  '.js': 'text/javascript; charset=utf-8',
  '.json': 'application/json',
  '.png': 'image/png',
  '.svg': 'image/svg+xml',
  '.txt': 'text/plain; charset=utf-8',
  '.webmanifest': 'application/manifest+json',
  '.woff2': 'font/woff2',
};

const IMMUTABLE = '/_app/immutable/';

/** Looks like a file rather than a screen; `/prep/bramble.1` is a screen. */
const FILE_NAME = /\.[a-z][a-z0-9]*$/i;

const NOT_BUILT = `<!doctype html>
<html lang="en">
<meta charset="utf-8">
<title>Aisle Board: the pages are not built yet</title>
<body>
<h1>The pages are not built yet</h1>
<p>The hub is running. To build its pages, stop it and run <code>npm start</code> in its folder,
or run <code>npx vite build</code> in <code>kiosk/</code> and start the hub again.</p>
</body>
</html>
`;

/** Serves `folder` as it is now. An address without a file behind it is a screen and gets the app's page. */
export function kioskFiles(folder: string): Handler {
  const pages = readPages(folder);
  const app = pages.get('/index.html');
  return (request, response) => {
    if (!app) return say(response, 503, 'text/html; charset=utf-8', NOT_BUILT);
    const path = pathOf(request);
    const page = pages.get(path) ?? (path.startsWith('/_app/') || FILE_NAME.test(path) ? null : app);
    if (!page) return say(response, 404, 'text/plain; charset=utf-8', 'Not found\n');
    return send(page, request, response);
  };
}

function readPages(folder: string): Map<string, Page> {
  const pages = new Map<string, Page>();
  if (!existsSync(folder)) return pages;
  for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
    const file = join(entry.parentPath, entry.name);
    const type = TYPES[extname(entry.name)];
    if (!entry.isFile() || !type) continue;
    const path = file.slice(folder.length).replaceAll('\\', '/');
    const body = readFileSync(file);
    if (extname(file) === '.html') addHtml(pages, path, body.toString('utf8'));
    else pages.set(path, pageOf(path, type, body, readIfThere(`${file}.br`), readIfThere(`${file}.gz`)));
  }
  return pages;
}

function pageOf(path: string, type: string, body: Buffer, br: Buffer | null, gzip: Buffer | null): Page {
  return { type, tag: `W/"${hashOf(body)}"`, forGood: path.startsWith(IMMUTABLE), body, br, gzip };
}

function hashOf(body: Buffer | string): string {
  return createHash('sha256').update(body).digest('base64url').slice(0, 22);
}

/** A page's inline scripts become files of their own: no response allows an inline one. */
function addHtml(pages: Map<string, Page>, path: string, html: string): void {
  const add = (at: string, type: string, text: string): void => {
    pages.set(at, pageOf(at, type, Buffer.from(text), brotliCompressSync(text), gzipSync(text)));
  };
  const outside = html.replaceAll(/<script>([\s\S]*?)<\/script>/g, (_all, script: string) => {
    const at = `${IMMUTABLE}begin-${hashOf(script)}.js`;
    add(at, 'text/javascript; charset=utf-8', script);
    return `<script src="${at}"></script>`;
  });
  add(path, 'text/html; charset=utf-8', outside);
}

function readIfThere(file: string): Buffer | null {
  return existsSync(file) ? readFileSync(file) : null;
}

function pathOf({ url = '/' }: IncomingMessage): string {
  try {
    return decodeURIComponent(url.split('?')[0] ?? '/');
  } catch {
    return '/malformed.txt';
  }
}

function send(page: Page, request: IncomingMessage, response: ServerResponse): void {
  const { encoding, body } = variant(page, String(request.headers['accept-encoding'] ?? ''));
  response.setHeader('Content-Type', page.type);
  response.setHeader('Cache-Control', page.forGood ? 'public, max-age=31536000, immutable' : 'no-cache');
  response.setHeader('ETag', page.tag);
  response.setHeader('Vary', 'Accept-Encoding');
  if (request.headers['if-none-match']?.includes(page.tag)) {
    response.writeHead(304).end();
    return;
  }
  if (encoding) response.setHeader('Content-Encoding', encoding);
  response.setHeader('Content-Length', body.length);
  response.writeHead(200).end(request.method === 'HEAD' ? undefined : body);
}

function variant(page: Page, accepts: string): { encoding: string | null; body: Buffer } {
  const takes = (name: string): boolean =>
    accepts.split(',').some((one) => {
      const [coding, weight] = one.trim().split(/\s*;\s*q=/);
      return coding === name && Number(weight ?? 1) > 0;
    });
  if (page.br && takes('br')) return { encoding: 'br', body: page.br };
  if (page.gzip && takes('gzip')) return { encoding: 'gzip', body: page.gzip };
  return { encoding: null, body: page.body };
}

function say(response: ServerResponse, status: number, type: string, text: string): void {
  response.writeHead(status, { 'Content-Type': type, 'Cache-Control': 'no-store' }).end(text);
}

const Version = z.object({ version: z.string() });

/** Names the build in `folder`; `none` when there is none. */
export function buildName(folder: string): string {
  try {
    return Version.parse(JSON.parse(readFileSync(join(folder, '_app/version.json'), 'utf8'))).version;
  } catch {
    return 'none';
  }
}
