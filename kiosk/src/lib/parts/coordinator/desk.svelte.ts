/** What the coordinator is looking at: one panel, and at most one sheet over it. */
import type { Role } from '#core/day/views/roles.ts';
import type { OpFact } from '#core/day/ops.ts';
import type { StandInsFor } from '#core/wire/standIns.ts';
import type { Alternative } from '#core/wire/suggested.ts';

export const PANELS = ['hands', 'horses', 'lessons', 'care', 'whatIf', 'recent', 'tablets'] as const;
export type Panel = (typeof PANELS)[number];

/** A change thought of but not done. */
export type Proposal = {
  readonly says: string;
  readonly facts: readonly OpFact[];
  readonly by: string | null;
  /** What to look at once it is done. */
  readonly afterwards?: DeskSheet;
};

export type DeskSheet =
  | { readonly sheet: 'none' | 'menu' | 'someoneElse' | 'weather' }
  | { readonly sheet: 'person'; readonly volunteer: string }
  | { readonly sheet: 'piece'; readonly piece: string }
  | { readonly sheet: 'horse' | 'vitals' | 'horseCare'; readonly horse: string }
  | { readonly sheet: 'lesson'; readonly lesson: string }
  | { readonly sheet: 'role'; readonly role: Role }
  | { readonly sheet: 'handOver'; readonly volunteer: string }
  | { readonly sheet: 'standIns'; readonly about: StandInsFor }
  | { readonly sheet: 'standIn'; readonly lesson: string; readonly place: string }
  | {
      readonly sheet: 'suggestion';
      readonly alternatives: readonly Alternative[];
      readonly first: Alternative;
    }
  | { readonly sheet: 'proposal'; readonly proposal: Proposal };

export class Desk {
  #panel = $state<Panel>('hands');
  #sheet = $state.raw<DeskSheet>({ sheet: 'none' });

  get panel(): Panel {
    return this.#panel;
  }

  get sheet(): DeskSheet {
    return this.#sheet;
  }

  show(panel: Panel): void {
    this.#panel = panel;
  }

  open(sheet: DeskSheet): void {
    this.#sheet = sheet;
  }

  close(): void {
    this.#sheet = { sheet: 'none' };
  }

  propose(proposal: Proposal): void {
    this.#sheet = { sheet: 'proposal', proposal };
  }
}
