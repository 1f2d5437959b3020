/** What is proposed for the places of a day that are still open, with its reasons. A person accepts it, or does not. */
import type { AlongBlock } from '../../day/goAlong.ts';
import type { OpFact } from '../../day/ops.ts';
import type { RoleName } from '../../day/roles.ts';
import type { Against, Block, For } from '../standIns/model.ts';

export type PlacesPlanned = Extract<OpFact, { kind: 'placesPlanned' }>;

export type HorseChoice = {
  readonly lesson: string;
  readonly place: string;
  readonly horse: string;
  /** Id of the horse's tack list. */
  readonly tack: string | null;
  readonly for: readonly For[];
  readonly against: readonly Against[];
};

export type PersonReason =
  /** How many others could have taken it. */
  | { readonly code: 'others-free'; readonly others: number }
  | { readonly code: 'with-this-rider-before' }
  | { readonly code: 'experienced' }
  /** In how many lessons of the day they go along already. */
  | { readonly code: 'in-lessons'; readonly lessons: number };

export type PersonChoice = {
  readonly lesson: string;
  readonly place: string;
  readonly role: RoleName;
  readonly person: string;
  readonly why: readonly PersonReason[];
};

/** Why a horse cannot take a place, as far as the day goes. Minutes whole. */
export type HorseBlock =
  | Block
  | {
      readonly code: 'too-little-between';
      readonly lesson: string;
      readonly minutes: number;
      readonly needed: number;
    };

/** What stays open, and why for everybody who was looked at. */
export type LeftOpen = { readonly lesson: string; readonly place: string } & (
  | {
      readonly what: 'horse';
      readonly horses: readonly { readonly horse: string; readonly blocks: readonly HorseBlock[] }[];
    }
  | {
      readonly what: RoleName;
      readonly people: readonly { readonly person: string; readonly blocks: readonly AlongBlock[] }[];
    }
);

export type Proposal = {
  /** Ready to send; null: nothing to propose. */
  readonly fact: PlacesPlanned | null;
  readonly horses: readonly HorseChoice[];
  readonly people: readonly PersonChoice[];
  readonly open: readonly LeftOpen[];
};
