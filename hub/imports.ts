/**
 * `POST /imported`: a file of records, looked at and worded by the page, checked again here, and written as one fact: all of
 * it is on disk before it is answered, or nothing is.
 */
import type { ServerResponse } from 'node:http';
import type { Op } from '#core/day/ops.ts';
import { parseFrame } from '#core/wire/frame.ts';
import { IMPORT_BYTES, ImportSent, type ImportStep } from '#core/wire/imports.ts';
import type { Endpoint } from './endpoints.ts';
import type { Answer } from './ledger.ts';
import { readText } from './readBody.ts';

/** How often the page hears how much has come, in bytes. */
const SAY_EVERY_BYTES = 256 * 1024;

type ImportsParts = {
  /** Null: nothing can be written down just now. */
  readonly take: (op: Op) => Promise<Answer | null>;
  readonly barnNow: () => number;
};

/** Answers a line of JSON a step (`ImportStep`). */
export function importEndpoint({ take, barnNow }: ImportsParts): Endpoint {
  return {
    method: 'POST',
    path: '/imported',
    may: 'coordinator',
    answer: async (request, response, who) => {
      response.writeHead(200, { 'Content-Type': 'application/x-ndjson', 'Cache-Control': 'no-store' });
      const say = (step: ImportStep): void => void response.write(`${JSON.stringify(step)}\n`);
      let said = 0;
      const body = await readText(request, IMPORT_BYTES, (bytes) => {
        if (bytes - said < SAY_EVERY_BYTES) return;
        said = bytes;
        say({ step: 'received', bytes });
      });
      if (body === null) return refuse(response, say, 'tooLong');
      const sent = parseFrame(ImportSent, body);
      if (!sent) return refuse(response, say, 'malformed');
      say({ step: 'checked', records: sent.fact.put.length + sent.fact.gone.length });
      const device = who.is === 'tablet' ? who.device : 'import';
      const answer = await take({ ...sent, device, tappedAt: barnNow() });
      if (!answer) return refuse(response, say, 'readOnly');
      if (answer.why) say({ step: 'refused', code: 'declined', why: answer.why });
      else say({ step: 'written', seq: answer.seq });
      response.end();
    },
  };
}

function refuse(
  response: ServerResponse,
  say: (step: ImportStep) => void,
  code: 'tooLong' | 'malformed' | 'readOnly',
): void {
  say({ step: 'refused', code, why: null });
  response.end();
}
