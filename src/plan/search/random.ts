/** Seeded pseudo-random numbers, so that a search can be repeated exactly. */

export interface Random {
  /** A whole number in [0, bound). `bound` is 1 … 2^31. */
  below(bound: number): number;
}

/** sfc32 by Chris Doty-Humphrey (PractRand), 128 bits of state, public domain algorithm. */
export function seededRandom(seed: number): Random {
  let a = 0x9e3779b9;
  let b = 0x243f6a88;
  let c = seed | 0;
  let counter = 1;
  const next = (): number => {
    const sum = (((a + b) | 0) + counter) | 0;
    counter = (counter + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = (c << 21) | (c >>> 11);
    c = (c + sum) | 0;
    return sum >>> 0;
  };
  for (let i = 0; i < 15; i++) next();
  return { below: (bound) => Math.floor((next() / 4294967296) * bound) };
}
