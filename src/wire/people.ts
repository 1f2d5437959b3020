/** What the hub says when somebody is to be erased. */
import * as z from 'zod/mini';

export const EraseAnswer = z.discriminatedUnion('erased', [
  /** When the hub's files are cleared. */
  z.object({ erased: z.literal(true), filesAt: z.enum(['now', 'nextStart']) }),
  z.object({
    erased: z.literal(false),
    why: z.enum(['otherName', 'onToday', 'lastCoordinator', 'unclearId', 'readOnly']),
  }),
]);
export type EraseAnswer = z.infer<typeof EraseAnswer>;
