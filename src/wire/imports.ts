/** A file of records on its way to the hub, over HTTP: larger than a tablet's frame may be. */
import * as z from 'zod/mini';
import { Id } from '../barn/fields.ts';
import { OpFact, Reason } from '../day/ops.ts';

/** Largest body: some 20,000 lessons. */
export const IMPORT_BYTES = 8 * 1024 * 1024;

/** `id` makes it safe to send again. */
export const ImportSent = z.object({
  id: Id,
  by: z.nullable(Id),
  fact: z.custom<Extract<OpFact, { kind: 'recordsImported' }>>(
    (fact) => OpFact.safeParse(fact).data?.kind === 'recordsImported',
  ),
});
export type ImportSent = z.infer<typeof ImportSent>;

/** What the hub says while it takes the file, one JSON text a line. The last line is `written` or `refused`. */
export const ImportStep = z.discriminatedUnion('step', [
  z.object({ step: z.literal('received'), bytes: z.int() }),
  z.object({ step: z.literal('checked'), records: z.int() }),
  /** On disk, and every board has been told. */
  z.object({ step: z.literal('written'), seq: z.int() }),
  z.object({
    step: z.literal('refused'),
    code: z.enum(['tooLong', 'malformed', 'readOnly', 'declined']),
    why: z.nullable(Reason),
  }),
]);
export type ImportStep = z.infer<typeof ImportStep>;
