/** The body of a request, as long as it is no longer than it may be. */
import type { IncomingMessage } from 'node:http';

/** Null: it is longer than `most` bytes. `received` is called with how many have come so far. */
export async function readBody(
  request: IncomingMessage,
  most: number,
  received: (bytes: number) => void = () => {},
): Promise<Buffer | null> {
  const chunks: Buffer[] = [];
  let bytes = 0;
  for await (const chunk of request as AsyncIterable<Buffer>) {
    bytes += chunk.length;
    if (bytes > most) return null;
    chunks.push(chunk);
    received(bytes);
  }
  return Buffer.concat(chunks);
}

/** The same as text. */
export async function readText(
  request: IncomingMessage,
  most: number,
  received?: (bytes: number) => void,
): Promise<string | null> {
  return (await readBody(request, most, received))?.toString('utf8') ?? null;
}
