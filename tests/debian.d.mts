/** Types of `debian.mjs`. */
export type Found =
  { readonly path: string; readonly why: string } | { readonly path: null; readonly why: string };
export function findChromium(): Found;
export function findCertutil(): Found;
