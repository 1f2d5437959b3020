/** The board's colours, read from its one file of them, by day and by night. The sums are checked on published values first. */
import { readFileSync } from 'node:fs';
import Color from 'colorjs.io';
import { describe, expect, it } from 'vitest';
import { source } from '../../reference/source.ts';

type Rgb = readonly [number, number, number];
type Matrix = readonly [Rgb, Rgb, Rgb];

const css = readFileSync(new URL('../../../kiosk/src/palette.css', import.meta.url), 'utf8');
const THEMES = { day: /:root \{([^}]*)\}/, night: /:root\[data-theme='night'\] \{([^}]*)\}/ };
type Theme = keyof typeof THEMES;

function tokensOf(theme: Theme): Map<string, string> {
  const [, block = ''] = THEMES[theme].exec(css) ?? [];
  return new Map(
    [...block.matchAll(/--([a-z-]+): (#[0-9a-f]{6});/g)].map(([, name, hex]) => [name ?? '', hex ?? '']),
  );
}

function hexOf(theme: Theme, name: string): string {
  const hex = tokensOf(theme).get(name);
  if (!hex) throw new Error(`no colour --${name} by ${theme}`);
  return hex;
}

const linearOf = (hex: string): Rgb => {
  const [r, g, b] = new Color(hex).to('srgb-linear').coords;
  return [r ?? 0, g ?? 0, b ?? 0];
};
const luminance = (hex: string): number => {
  const [r, g, b] = linearOf(hex);
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
};

/** Contrast with stray light `flare` as a part of the panel's white; WCAG 2.2 takes 0.05. */
function contrast(a: string, b: string, flare = 0.05): number {
  const [low = 0, high = 0] = [luminance(a), luminance(b)].sort((x, y) => x - y);
  return (high + flare) / (low + flare);
}

/** Stray light on a panel of `nits` in `lux`, reflecting 5 %: E ρ / (π L). */
const flareOf = (nits: number, lux: number): number => (lux * 0.05) / (Math.PI * nits);

const VISIONS: Record<string, { matrix: Matrix; least: number }> = {
  usual: {
    matrix: [
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
    ],
    least: 20,
  },
  'protan, Machado': {
    matrix: [
      [0.152286, 1.052583, -0.204868],
      [0.114503, 0.786281, 0.099216],
      [-0.003882, -0.048116, 1.051998],
    ],
    least: 20,
  },
  'deutan, Machado': {
    matrix: [
      [0.367322, 0.860646, -0.227968],
      [0.280085, 0.672501, 0.047413],
      [-0.01182, 0.04294, 0.968881],
    ],
    least: 20,
  },
  'protan, Viénot': {
    matrix: [
      [0.11238, 0.88762, 0],
      [0.11238, 0.88762, 0],
      [0.00401, -0.00401, 1],
    ],
    least: 20,
  },
  'deutan, Viénot': {
    matrix: [
      [0.29275, 0.70725, 0],
      [0.29275, 0.70725, 0],
      [-0.02234, 0.02234, 1],
    ],
    least: 20,
  },
  // Rare: one in ten thousand at most. Viénot's way does not hold for it.
  'tritan, Machado': {
    matrix: [
      [1.255528, -0.076749, -0.178779],
      [-0.078411, 0.930809, 0.147602],
      [0.004733, 0.691367, 0.3039],
    ],
    least: 15,
  },
};

/** On linear light, clipped: on encoded values the matrices give other colours altogether. */
function seenAs(hex: string, vision: string): Color {
  const rows = VISIONS[vision]?.matrix;
  if (!rows) throw new Error(vision);
  const from = linearOf(hex);
  const [r, g, b] = rows.map((row) =>
    Math.min(1, Math.max(0, row[0] * from[0] + row[1] * from[1] + row[2] * from[2])),
  );
  return new Color('srgb-linear', [r ?? 0, g ?? 0, b ?? 0]);
}

const apart = (a: Color, b: Color): number => a.deltaE(b, '2000');

describe('the sums themselves', () => {
  it('contrast', source('WCAG 2.2, relative luminance and contrast ratio'), () => {
    for (const [a, b, ratio] of [
      ['#000000', '#ffffff', 21],
      ['#767676', '#ffffff', 4.5422],
      ['#777777', '#ffffff', 4.4781],
      ['#595959', '#ffffff', 7.0047],
      ['#949494', '#ffffff', 3.0335],
      ['#ff0000', '#ffffff', 3.9985],
      ['#0000ff', '#ffffff', 8.5925],
      ['#ffff00', '#000000', 19.556],
      ['#ffffff', '#1a1a1a', 17.404],
    ] as const)
      expect(contrast(a, b), `${a} ${b}`).toBeCloseTo(ratio, 3);
  });

  it('contrast in bright surroundings', source('Photometry of a diffuse reflector, computed apart'), () => {
    expect(flareOf(500, 10_000)).toBeCloseTo(0.3183, 4);
    expect(flareOf(1000, 10_000)).toBeCloseTo(0.1592, 4);
    expect(flareOf(500, 1571)).toBeCloseTo(0.05, 4);
    for (const [a, b, at1000, at500] of [
      ['#000000', '#ffffff', 7.28, 4.14],
      ['#595959', '#ffffff', 4.47, 3.15],
      ['#0072b2', '#ffffff', 3.72, 2.8],
      ['#000000', '#f0e442', 5.67, 3.34],
    ] as const) {
      expect(contrast(a, b, flareOf(1000, 10_000)), a).toBeCloseTo(at1000, 1);
      expect(contrast(a, b, flareOf(500, 10_000)), a).toBeCloseTo(at500, 1);
    }
  });

  it(
    'colour vision',
    source('Machado, Oliveira, Fernandes 2009, severity 1.0', 'Viénot, Brettel, Mollon 1999'),
    () => {
      for (const [hex, vision, seen] of [
        ['#ff0000', 'protan, Machado', '#6d5f00'],
        ['#ff0000', 'deutan, Machado', '#a39000'],
        ['#ff0000', 'tritan, Machado', '#ff000f'],
        ['#0000ff', 'tritan, Machado', '#006b96'],
        ['#e69f00', 'protan, Machado', '#b9a200'],
        ['#e69f00', 'deutan, Machado', '#cab411'],
        ['#ff0000', 'protan, Viénot', '#5e5e0d'],
        ['#00ff00', 'deutan, Viénot', '#dbdb29'],
        ['#808080', 'deutan, Machado', '#808080'],
      ] as const)
        expect(
          seenAs(hex, vision).to('srgb').toString({ format: 'hex', collapse: false }),
          `${hex} ${vision}`,
        ).toBe(seen);
    },
  );

  it('CIEDE2000', source('Sharma, Wu, Dalal 2005, Color Research and Application 30(1), test pairs'), () => {
    for (const [a, b, expected] of [
      [[50, 2.6772, -79.7751], [50, 0, -82.7485], 2.0425],
      [[50, -1.3802, -84.2814], [50, 0, -82.7485], 1.0],
      [[50, 0, 0], [50, -1, 2], 2.3669],
      [[50, 2.49, -0.001], [50, -2.49, 0.001], 7.1792],
      [[50, 2.49, -0.001], [50, -2.49, 0.0011], 7.2195],
      [[50, -0.001, 2.49], [50, 0.0011, -2.49], 4.7461],
      [[50, 2.5, 0], [56, -27, -3], 31.903],
      [[22.7233, 20.0904, -46.694], [23.0331, 14.973, -42.5619], 2.0373],
    ] as [Rgb, Rgb, number][])
      expect(apart(new Color('lab', [...a]), new Color('lab', [...b]))).toBeCloseTo(expected, 4);
  });
});

describe.each(['day', 'night'] as const)('by %s', (theme) => {
  const on = (text: string, ground: string, flare?: number): number =>
    contrast(hexOf(theme, text), hexOf(theme, ground), flare);

  it.each([
    ['ink', 'paper'],
    ['ink', 'card'],
    ['ink', 'card-quiet'],
    ['plate-ink', 'plate'],
    ['go-ink', 'go-ground'],
    ['near-ink', 'near-ground'],
    ['late-ink', 'late-ground'],
    ['ask-ink', 'ask-ground'],
    ['late-pale-ink', 'late-pale'],
    ['ask-pale-ink', 'ask-pale'],
  ])('%s on %s has 7:1', source('WCAG 2.2, 1.4.6'), (text, ground) => {
    expect(on(text, ground)).toBeGreaterThanOrEqual(7);
  });

  const lines = ['ink-soft', 'go', 'near', 'late', 'ask'].flatMap((line) =>
    ['paper', 'card', 'card-quiet'].map((ground) => [line, ground] as const),
  );
  it.each(lines)(
    '%s on %s has 4.5:1 or, for lines alone, 3:1',
    source('WCAG 2.2, 1.4.3 and 1.4.11'),
    (line, ground) => {
      expect(on(line, ground)).toBeGreaterThanOrEqual(line === 'near' ? 3 : 4.5);
    },
  );

  const grounds = ['go-ground', 'near-ground', 'late-ground', 'ask-ground', 'card', 'ink'];
  const pairs = grounds.flatMap((a, i) => grounds.slice(i + 1).map((b) => [a, b] as const));
  // No standard says how far apart large fields must be; 20 is the project's own floor.
  it.each(Object.entries(VISIONS))(
    'statuses, card and pulled stay apart in %s vision',
    source('CIEDE2000; the floor of 20 is common practice, no source'),
    (vision, { least }) => {
      for (const [a, b] of pairs)
        expect(
          apart(seenAs(hexOf(theme, a), vision), seenAs(hexOf(theme, b), vision)),
          `${a} and ${b}`,
        ).toBeGreaterThanOrEqual(least);
    },
  );
});

describe('by day, in the shade at 10,000 lx', () => {
  const on = (text: string, ground: string, nits: number): number =>
    contrast(hexOf('day', text), hexOf('day', ground), flareOf(nits, 10_000));

  it(
    'names and figures keep 4.5:1 on a panel of 1,000 nits, and 3:1 on one of 500',
    source('WCAG 2.2, 1.4.3, with stray light'),
    () => {
      for (const ground of ['paper', 'card', 'card-quiet']) {
        expect(on('ink', ground, 1000), ground).toBeGreaterThanOrEqual(4.5);
        expect(on('ink', ground, 500), ground).toBeGreaterThanOrEqual(3);
      }
    },
  );

  it(
    'the large words on status grounds keep 3:1 on a panel of 1,000 nits',
    source('WCAG 2.2, 1.4.3 for large text, with stray light'),
    () => {
      for (const status of ['go', 'near', 'late', 'ask'])
        expect(on(`${status}-ink`, `${status}-ground`, 1000), status).toBeGreaterThanOrEqual(3);
    },
  );
});
