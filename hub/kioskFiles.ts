/** The kiosk's built pages, as files. */
import { existsSync, readFileSync } from 'node:fs';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { join } from 'node:path';
import sirv from 'sirv';
import * as z from 'zod/mini';

export type Handler = (request: IncomingMessage, response: ServerResponse) => void;

/** File names in here carry a hash of their content: what was fetched once stays right for good. */
const IMMUTABLE = '/_app/immutable/';

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

/**
 * Serves `folder`. An address without a file behind it is a screen and gets the app's page, unless it looks like a file:
 * then it is 404.
 */
export function kioskFiles(folder: string): Handler {
  if (!existsSync(join(folder, 'index.html'))) {
    return (_request, response) => {
      response.writeHead(503, { 'Content-Type': 'text/html; charset=utf-8', 'Cache-Control': 'no-store' });
      response.end(NOT_BUILT);
    };
  }
  const files = sirv(folder, {
    single: true,
    etag: true,
    gzip: true,
    brotli: true,
    setHeaders: (response, path) => {
      const forGood = path.startsWith(IMMUTABLE);
      response.setHeader('Cache-Control', forGood ? 'public, max-age=31536000, immutable' : 'no-cache');
      response.setHeader('X-Content-Type-Options', 'nosniff');
      response.setHeader('Referrer-Policy', 'no-referrer');
    },
  });
  return (request, response) =>
    files(request, response, () => {
      response.writeHead(404, { 'Content-Type': 'text/plain; charset=utf-8', 'Cache-Control': 'no-store' });
      response.end('Not found\n');
    });
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
