/** What kind of thing a tack list means by a name of its own, so that a drawing can stand beside it. The name always stands, too. */

/** Kinds there are drawings for. */
export const TACK_KINDS = [
  'stirrups',
  'pad',
  'girth',
  'halter',
  'bridle',
  'reins',
  'lead',
  'saddle',
] as const;
export type TackKind = (typeof TACK_KINDS)[number];

/**
 * Parts of words in the languages of the boards, in the order they are tried: a `saddle pad` is a pad, a `halter bridle` goes on as
 * a halter. Trade words from general manuals: common practice, no source.
 */
const WORDS: Readonly<Record<TackKind, RegExp>> = {
  stirrups: /stirrup|estrib/,
  pad: /\bpad\b|blanket|numnah|fleece|sudadero|mantilla|manta/,
  girth: /girth|cinch|surcingle|cincha|cinchuelo/,
  halter: /halter|headcollar|cabestro|jáquima|bozal/,
  bridle: /bridle|\bbit\b|brida|cabezada|bocado|\bfreno/,
  reins: /\breins?\b|rienda/,
  lead: /lead|rope|ramal|cuerda/,
  saddle: /saddle|treeless|silla|montura/,
};

/** Null: none of the kinds there are drawings for. */
export function tackKind(item: string): TackKind | null {
  const name = item.toLowerCase();
  return TACK_KINDS.find((kind) => WORDS[kind].test(name)) ?? null;
}
