/** From a frame's text to a message, or to nothing. Used at both ends, so that neither trusts the other. */
import type * as z from 'zod/mini';

/** The message in `text`, after `unpack`; null when it is not JSON or not of the schema. Never throws. */
export function parseFrame<T>(
  schema: z.ZodMiniType<T>,
  text: string,
  unpack: (data: unknown) => unknown = (data) => data,
): T | null {
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch {
    return null;
  }
  const parsed = schema.safeParse(unpack(data));
  return parsed.success ? parsed.data : null;
}
