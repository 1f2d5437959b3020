/** A chosen picture made small enough for the hub, and sent. */

/** As the hub takes. */
const MOST_BYTES = 60_000;
/** Longest side in pixels and quality, tried one after the other until the picture is small enough. */
const TRIES = [
  [960, 0.8],
  [720, 0.7],
  [480, 0.6],
  [320, 0.5],
] as const;

/** The picture's name on the hub; null: it could not be read, shrunk or sent. */
export async function sendPhoto(file: Blob): Promise<string | null> {
  try {
    const small = await shrunk(file);
    if (!small) return null;
    const response = await fetch('/photos', { method: 'POST', body: small });
    if (!response.ok) return null;
    const { name } = (await response.json()) as { name: string };
    return name;
  } catch {
    return null;
  }
}

async function shrunk(file: Blob): Promise<Blob | null> {
  const image = await createImageBitmap(file);
  for (const [side, quality] of TRIES) {
    const scale = Math.min(1, side / Math.max(image.width, image.height));
    const canvas = document.createElement('canvas');
    canvas.width = Math.max(1, Math.round(image.width * scale));
    canvas.height = Math.max(1, Math.round(image.height * scale));
    canvas.getContext('2d')?.drawImage(image, 0, 0, canvas.width, canvas.height);
    const made = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/jpeg', quality));
    if (made && made.size <= MOST_BYTES) return made;
  }
  return null;
}
