/**
 * The look's colours, read from its one token file. Contrast after WCAG 2.2 (relative luminance and contrast ratio);
 * 7:1 is its AAA for text, and leaves about 4.5:1 on a 1,000 cd/m² panel in the shade at 10,000 lx (5 % reflectance).
 * Colour vision after Machado, Oliveira and Fernandes 2009, severity 1.0; distance CIE 1976 ΔE*ab.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

const css = readFileSync(new URL('../../../kiosk/src/app.css', import.meta.url), 'utf8');
const tokens = new Map(
  [...css.matchAll(/--([a-z-]+): (#[0-9a-f]{6});/g)].map(([, name, hex]) => [name ?? '', hex ?? '']),
);
type Rgb = readonly [number, number, number];

function hexOf(name: string): string {
  const hex = tokens.get(name);
  if (!hex) throw new Error(`no colour --${name} in app.css`);
  return hex;
}

/** Linear light, 0 … 1. */
function linear(hex: string): Rgb {
  const part = (at: number): number => {
    const c = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  };
  return [part(1), part(3), part(5)];
}

const luminance = ([r, g, b]: Rgb): number => 0.2126 * r + 0.7152 * g + 0.0722 * b;

function contrast(a: string, b: string): number {
  const [low = 0, high = 0] = [luminance(linear(a)), luminance(linear(b))].sort((x, y) => x - y);
  return (high + 0.05) / (low + 0.05);
}

type Matrix = readonly [Rgb, Rgb, Rgb];
const SEEN_AS: Record<string, Matrix> = {
  usual: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  protan: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deutan: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritan: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
};

const times = ([r, g, b]: Rgb, m: Matrix): Rgb => {
  const row = ([x, y, z]: Rgb): number => Math.min(1, Math.max(0, x * r + y * g + z * b));
  return [row(m[0]), row(m[1]), row(m[2])];
};

/** CIE L*a*b* under D65, from linear sRGB (IEC 61966-2-1 matrix). */
function lab([r, g, b]: Rgb): Rgb {
  const f = (t: number): number => (t > 216 / 24389 ? Math.cbrt(t) : ((24389 / 27) * t + 16) / 116);
  const x = f((0.4124 * r + 0.3576 * g + 0.1805 * b) / 0.9505);
  const y = f(0.2126 * r + 0.7152 * g + 0.0722 * b);
  const z = f((0.0193 * r + 0.1192 * g + 0.9505 * b) / 1.089);
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

const distance = (a: Rgb, b: Rgb): number => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);

describe('the sums themselves', () => {
  it('give WCAG’s published contrasts', () => {
    expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 6);
    expect(contrast('#767676', '#ffffff')).toBeCloseTo(4.5422, 3);
    expect(contrast('#595959', '#ffffff')).toBeCloseTo(7.0047, 3);
  });
  it('turn Okabe and Ito’s orange into the protan and deutan colour that Machado’s matrices give', () => {
    const eight = (rgb: Rgb): string =>
      rgb
        .map((c) => Math.round(255 * (c <= 0.0031308 ? 12.92 * c : 1.055 * c ** (1 / 2.4) - 0.055)))
        .map((c) => c.toString(16).padStart(2, '0'))
        .join('');
    const orange = linear('#e69f00');
    expect(eight(times(orange, SEEN_AS['protan'] as Matrix))).toBe('b9a200');
    expect(eight(times(orange, SEEN_AS['deutan'] as Matrix))).toBe('cab411');
  });
});

describe('text on its ground', () => {
  it.each([
    ['ink', 'paper'],
    ['ink', 'card'],
    ['ink', 'card-quiet'],
    ['go-ink', 'go-ground'],
    ['near-ink', 'near-ground'],
    ['late-ink', 'late-ground'],
    ['late-pale-ink', 'late-pale'],
    ['ask-ink', 'ask-ground'],
    ['card', 'ink'],
  ])('%s on %s has 7:1', (text, ground) => {
    expect(contrast(hexOf(text), hexOf(ground))).toBeGreaterThanOrEqual(7);
  });

  it.each([
    ['ink-soft', 'paper'],
    ['ink-soft', 'card'],
    ['ink-soft', 'card-quiet'],
    ['late', 'card'],
    ['go', 'card'],
  ])('%s on %s has 4.5:1, for what is said again elsewhere', (text, ground) => {
    expect(contrast(hexOf(text), hexOf(ground))).toBeGreaterThanOrEqual(4.5);
  });

  it.each(['go', 'near', 'late', 'ask'])(
    'the line of %s stands out from the card by 3:1 (WCAG 1.4.11)',
    (line) => {
      expect(contrast(hexOf(line), hexOf('card'))).toBeGreaterThanOrEqual(3);
    },
  );
});

describe('the status grounds', () => {
  const grounds = ['go-ground', 'near-ground', 'late-ground', 'ask-ground', 'card', 'ink'];
  const pairs = grounds.flatMap((a, i) => grounds.slice(i + 1).map((b) => [a, b] as const));
  /** About five just noticeable differences; below it a word and a mark would be all that tells them apart. */
  const APART = 12;

  it.each(Object.keys(SEEN_AS))('keep apart in %s vision', (vision) => {
    for (const [a, b] of pairs) {
      const seen = (name: string): Rgb => lab(times(linear(hexOf(name)), SEEN_AS[vision] as Matrix));
      expect(distance(seen(a), seen(b)), `${a} and ${b}`).toBeGreaterThanOrEqual(APART);
    }
  });
});
