/**
 * What the hub answers to those who come by plain http while it has a certificate: the way to trust it, and the certificate
 * itself. Made here and not in the kiosk, since it must work before anything is trusted: no script, one page.
 */
import { createHash } from 'node:crypto';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { languageFor } from '#core/words/languages.ts';
import type { Shown } from './certificates.ts';

export const CERTIFICATE_PATH = '/aisle-board.crt';

const STYLE = `
body { max-width: 44rem; margin: 0 auto; padding: 2rem 1.25rem 4rem; background: #ece7da; color: #1b1916;
  font: 1.125rem/1.45 'Segoe UI', Roboto, 'Noto Sans', 'Liberation Sans', Arial, sans-serif; }
h1 { font-size: 2rem; line-height: 1.1; }
section { margin: 1.5rem 0; padding: 1rem 1.25rem; border-radius: 10px; background: #fbf9f3; }
h2 { margin: 0 0 .5rem; font-size: 1.25rem; }
ol { margin: 0; padding-inline-start: 1.5rem; }
li { margin: .4rem 0; overflow-wrap: anywhere; }
code { overflow-wrap: anywhere; font-size: 1.05rem; }
.go { display: block; margin: 1rem 0; padding: 1.1rem; border-radius: 6px; background: #1b1916; color: #fbf9f3;
  font-weight: 700; font-size: 1.25rem; text-align: center; text-decoration: none; }
.go:focus-visible { outline: 4px solid #2a5d97; outline-offset: 2px; }
`;
const STYLE_HASH = createHash('sha256').update(STYLE).digest('base64');

/** Answers a request that came by plain http. `port`: where the board itself is. Without `shown` there is nothing to trust. */
export function trustHandler(shown: (() => Shown) | null, port: () => number) {
  return async (request: IncomingMessage, response: ServerResponse): Promise<void> => {
    const { authority, print } = shown?.() ?? { authority: null, print: null };
    const path = (request.url ?? '').split('?')[0];
    const board = `https://${hostOf(request)}:${port()}/`;
    if (request.method !== 'GET' && request.method !== 'HEAD') {
      // What was meant for the board must not have gone over the air in the clear.
      response.writeHead(403, { Connection: 'close' }).end();
    } else if (authority === null) {
      response.writeHead(308, { Location: board }).end();
    } else if (path === CERTIFICATE_PATH) {
      response.writeHead(200, {
        'Content-Type': 'application/x-x509-ca-cert',
        'Content-Disposition': 'attachment; filename="aisle-board.crt"',
      });
      response.end(authority);
    } else {
      const page = await trustPage(request.headers['accept-language'] ?? '', board, print ?? '');
      response.writeHead(200, {
        'Content-Type': 'text/html; charset=utf-8',
        'Content-Security-Policy': `default-src 'none'; style-src 'sha256-${STYLE_HASH}'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'`,
        'X-Content-Type-Options': 'nosniff',
        'Referrer-Policy': 'no-referrer',
        'Cache-Control': 'no-store',
      });
      response.end(page);
    }
  };
}

async function trustPage(accepted: string, board: string, print: string): Promise<string> {
  const language = languageFor(accepted.split(',').map((one) => one.split(';')[0]?.trim() ?? ''));
  const { TRUST } = await language.load.trust();
  const steps = TRUST.steps.map(
    (one) =>
      `<section><h2>${text(one.on)}</h2><ol>${one.do.map((line) => `<li>${text(line)}</li>`).join('')}</ol></section>`,
  );
  return `<!doctype html>
<html lang="${language.code}" dir="${language.direction}">
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${text(TRUST.title)}</title>
<style>${STYLE}</style>
<body>
<h1>${text(TRUST.heading)}</h1>
<p>${text(TRUST.why)}</p>
<p>${text(TRUST.scope)}</p>
<section><p>${text(TRUST.compare)}</p><code>${text(print)}</code></section>
<a class="go" href="${CERTIFICATE_PATH}" download>${text(TRUST.take)}</a>
${steps.join('\n')}
<a class="go" href="${text(board)}">${text(TRUST.open)}</a>
</body>
</html>
`;
}

/** The name the request came for, without its port; nothing that could leave the address it is put into. */
function hostOf(request: IncomingMessage): string {
  const host = (request.headers.host ?? '').replace(/:\d+$/, '');
  return /^([a-z0-9.-]+|\[[0-9a-f:.]+\])$/i.test(host) ? host : 'localhost';
}

function text(words: string): string {
  return words
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
}
