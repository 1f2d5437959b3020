/** `GET /backup`: the whole barn in one file, for a coordinator who has unlocked the tablet. */
import { pipeline } from 'node:stream/promises';
import type { Endpoint } from './endpoints.ts';
import { fileName, takeBackup } from './backup.ts';
import { backupLines } from './storage/backupFile.ts';
import type { Audit } from './gate/audit.ts';

/** `folder` null: the hub keeps nothing, so there is nothing to take. */
export function backupEndpoint(folder: string | null, now: () => number, audit: Audit): Endpoint {
  return {
    method: 'GET',
    path: '/backup',
    may: 'coordinator',
    answer: async (request, response, who) => {
      if (folder === null) return void response.writeHead(404).end();
      const backup = await takeBackup(folder, now());
      response.writeHead(200, {
        'Content-Type': 'application/octet-stream',
        'Content-Disposition': `attachment; filename="${fileName(backup)}"`,
        'Cache-Control': 'no-store',
      });
      if (request.method === 'HEAD') return void response.end();
      // One that breaks off is not whole, which restoring it says.
      await pipeline(backupLines(backup), response);
      if (who.is === 'tablet') {
        audit.add({ what: 'backupTaken', tablet: who.device, ...(who.by !== null && { by: who.by }) });
      }
    },
  };
}
