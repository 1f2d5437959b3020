/** `GET /backup`: the whole barn in one file, for a coordinator who has unlocked the tablet. */
import type { Endpoint } from './endpoints.ts';
import { fileName, takeBackup } from './backup.ts';
import { toBackup } from './storage/backupFile.ts';
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
      const bytes = toBackup(backup);
      response.writeHead(200, {
        'Content-Type': 'application/octet-stream',
        'Content-Disposition': `attachment; filename="${fileName(backup)}"`,
        'Content-Length': bytes.length,
        'Cache-Control': 'no-store',
      });
      response.end(request.method === 'HEAD' ? undefined : bytes);
      if (who.is === 'tablet') {
        audit.add({ what: 'backupTaken', tablet: who.device, ...(who.by !== null && { by: who.by }) });
      }
    },
  };
}
