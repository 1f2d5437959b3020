/** A horse as the barn keeps it: where it stands, its feet, its tack, what to mind, and what keeps it off work. */
import * as z from 'zod/mini';
import { HorseWeight } from '../care/bodyWeight.ts';
import { HorseLoadLimit } from '../care/load.ts';
import { DateText, Id, Instant, ShownName, Stage, Words } from './fields.ts';

const FootCare = z.enum(['shod', 'barefoot']);

/** Name of a picture on the hub. A changed picture has another name. */
export const PhotoName = z.string().check(z.regex(/^[0-9a-f]{32}$/));

/** A named set of tack for one horse. Two places of one horse on the same list need no change of tack between them. */
export const TackList = z.object({
  id: Id,
  name: ShownName,
  items: z.array(ShownName).check(z.maxLength(20)),
  /** Null: nobody has weighed it. */
  kg: z._default(z.nullable(z.number().check(z.gte(0), z.lte(60))), null),
  photo: z.optional(PhotoName),
});
export type TackList = z.infer<typeof TackList>;

/** Signal words after ANSI Z535: WARNING could kill or seriously injure, CAUTION could injure, NOTICE is not about injury. */
export const Caution = z.object({ signal: z.enum(['WARNING', 'CAUTION', 'NOTICE']), text: Words });
export type Caution = z.infer<typeof Caution>;

/**
 * Why a horse is off work. `today` ends with the day; the others stay, over days, until somebody named releases the
 * horse (after `farrier` or `vet`: with that person's word).
 */
export const Hold = z.object({
  kind: z.enum(['today', 'instructor', 'farrier', 'vet']),
  why: Words,
  by: z.nullable(Id),
  since: Instant,
});
export type Hold = z.infer<typeof Hold>;

/**
 * A horse kept apart for its skin: own kit only, done last, hands washed. It works as its holds allow; a named person sets
 * and ends it.
 */
export const Isolation = z.object({ why: Words, by: z.nullable(Id), since: Instant });
export type Isolation = z.infer<typeof Isolation>;

export const Horse = z.object({
  id: Id,
  name: ShownName,
  stall: Id,
  feet: z.object({ LF: FootCare, LH: FootCare, RF: FootCare, RH: FootCare }),
  tackLists: z.array(TackList).check(z.maxLength(12)),
  /** Stages of this horse that ask for an experienced person. */
  experiencedFor: z.array(Stage),
  notes: Words,
  cautions: z.array(Caution).check(z.maxLength(8)),
  /** No upper bound: a pull always lands, and a board with one hold too many could not be read back. */
  holds: z.array(Hold),
  /** How its own grooming kit is known: `box with the green lid`. Missing: it has none. */
  kit: z.optional(ShownName),
  /** Last shoeing or trim. Missing: nobody knows. */
  farrierOn: z.optional(DateText),
  isolation: z.optional(Isolation),
  photo: z.optional(PhotoName),
  /** What decides which rider fits. The coordinator's alone: with it, a "no" on the wall would tell a rider's weight. */
  private: z.optional(
    z.object({
      weight: z.nullable(HorseWeight),
      pony: z.boolean(),
      /** Henneke condition score, 1 to 9. */
      condition: z.nullable(z.int().check(z.gte(1), z.lte(9))),
      /** Who scored it last, and when. Missing: it came with the record. */
      conditionSeen: z.optional(z.object({ by: z.nullable(Id), at: Instant })),
      loadLimit: z.nullable(HorseLoadLimit),
    }),
  ),
});
export type Horse = z.infer<typeof Horse>;

/** A place in the aisle. `metres` is its distance from the aisle's first stall, for walking between horses. */
export const Stall = z.object({
  id: Id,
  name: ShownName,
  metres: z.number().check(z.gte(0), z.lte(500)),
});
export type Stall = z.infer<typeof Stall>;
