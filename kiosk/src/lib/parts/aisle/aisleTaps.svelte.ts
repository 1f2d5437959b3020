/** What a tap in the aisle leads to: at once if somebody just gave a name, else through the name badges. */
import type { AisleTile } from '#core/day/views/aisle.ts';
import type { HelpCall } from '#core/day/board.ts';
import { whomToCall } from '#core/day/help.ts';
import type { OpFact } from '#core/day/ops.ts';
import type { HelpSubject } from '#core/help/pages.ts';
import { isCleared, type Clearance, type WorkStage } from '#core/barn/stage.ts';
import type { Finding } from '#core/care/findings.ts';
import type { Session } from '../../state/session.svelte.ts';
import { say } from '../../words.ts';

export type Sheet =
  | { readonly sheet: 'none' | 'arrived' | 'menu' }
  | { readonly sheet: 'out' }
  /** Girth and stirrups: who checked them? */
  | { readonly sheet: 'check'; readonly tile: AisleTile }
  | { readonly sheet: 'ask'; readonly tile: AisleTile; readonly call: HelpCall['kind'] }
  /** After the feet of a horse that is looked over: its body. */
  | {
      readonly sheet: 'body';
      readonly tile: AisleTile;
      readonly stages: readonly WorkStage[];
      readonly findings: readonly Finding[];
    }
  | { readonly sheet: 'help'; readonly horse: string; readonly subject: HelpSubject }
  | { readonly sheet: 'detail' | 'saw' | 'vitals'; readonly horse: string }
  | {
      readonly sheet: 'told';
      readonly horse: string;
      readonly findings: readonly Finding[];
      readonly words: string;
    }
  /** No stages: only something to tell of a foot. */
  | { readonly sheet: 'feet'; readonly tile: AisleTile; readonly stages: readonly WorkStage[] }
  | {
      readonly sheet: 'finished';
      readonly tile: AisleTile;
      readonly stages: readonly WorkStage[];
      readonly findings: readonly Finding[];
    }
  | { readonly sheet: 'started'; readonly tile: AisleTile; readonly stage: WorkStage };

const DURING = ['body', 'check', 'ask', 'out', 'help'] as const;
/** Sheets of a horse’s ride, of putting it away, and of help. */
export type DuringSheet = Extract<Sheet, { sheet: (typeof DURING)[number] }>;
export function isDuring(sheet: Sheet): sheet is DuringSheet {
  return DURING.some((one) => one === sheet.sheet);
}

export class AisleTaps {
  readonly #session: Session;
  #sheet = $state.raw<Sheet>({ sheet: 'none' });

  constructor(session: Session) {
    this.#session = session;
  }

  get sheet(): Sheet {
    return this.#sheet;
  }

  open(sheet: Sheet): void {
    this.#sheet = sheet;
  }

  close(): void {
    this.#sheet = { sheet: 'none' };
  }

  /** `person`: whoever gave a name here a moment ago. Feet are never finished by a tap alone: the guided check comes first. */
  finish(tile: AisleTile, stages: readonly WorkStage[], person: string | null): void {
    if (stages.includes('feet') || stages.includes('look')) this.open({ sheet: 'feet', tile, stages });
    else this.finishWith(tile, stages, [], person);
  }

  /** The feet are looked at; a horse that is put away is looked over as a whole. */
  feetDone(
    tile: AisleTile,
    stages: readonly WorkStage[],
    findings: readonly Finding[],
    person: string | null,
  ): void {
    if (stages.length === 0) this.tell(tile.horse, findings, '', person);
    else if (stages.includes('look')) this.open({ sheet: 'body', tile, stages, findings });
    else this.finishWith(tile, stages, findings, person);
  }

  finishWith(
    tile: AisleTile,
    stages: readonly WorkStage[],
    findings: readonly Finding[],
    person: string | null,
  ): void {
    if (person === null) this.open({ sheet: 'finished', tile, stages, findings });
    else this.finishBy(tile, stages, findings, person);
  }

  start(
    tile: AisleTile,
    stage: WorkStage,
    person: { readonly id: string; readonly clearances: readonly Clearance[] } | null,
  ): void {
    if (person && isCleared(person.clearances, tile.asks)) this.startBy(tile, stage, person.id);
    else this.open({ sheet: 'started', tile, stage });
  }

  finishBy(
    tile: AisleTile,
    stages: readonly WorkStage[],
    findings: readonly Finding[],
    by: string | null,
  ): void {
    this.close();
    if (tile.prep === null) return;
    const last = stages.at(-1);
    const what = stages.map((stage) => say.STAGE_DONE[stage]).join(', ');
    if (last === undefined) return;
    this.#remember(by);
    const name = by === null ? null : this.#session.board.nameOf(by);
    const fact: OpFact = { kind: 'stagesFinished', prep: tile.prep, stages: [...stages] };
    // Findings first: whoever reads the board then never sees a checked horse without them.
    const seen = findings.map((finding) => this.#see(tile.horse, finding, '', by));
    this.#session.tapWithUndo(fact, by, tile.prep, say.AISLE.done(what, name), seen);
  }

  startBy(tile: AisleTile, stage: WorkStage, by: string): void {
    this.close();
    if (tile.prep === null) return;
    this.#remember(by);
    const fact = { kind: 'stageStarted', prep: tile.prep, stage } as const;
    this.#session.tapWithUndo(fact, by, tile.prep, say.AISLE.onIt(this.#session.board.nameOf(by)));
  }

  checkBy(tile: AisleTile, by: string): void {
    this.close();
    if (!tile.check || tile.prep === null) return;
    const { lesson, place } = tile.check;
    const fact: OpFact = { kind: 'placesChecked', lesson, places: [place], check: 'girth' };
    this.#remember(by);
    const says = say.CHECK.girthBy(this.#session.board.nameOf(by));
    this.#session.tapWithUndo(fact, by, tile.prep, says);
  }

  ask(tile: AisleTile, call: HelpCall['kind'], person: string | null): void {
    if (person === null) this.open({ sheet: 'ask', tile, call });
    else this.askBy(tile, call, person);
  }

  /** Somebody not sure gets somebody named, whoever that is now. */
  askBy(tile: AisleTile, call: HelpCall['kind'], by: string | null): void {
    this.close();
    this.#remember(by);
    const { board, ticker } = this.#session;
    const to = call === 'unsure' && board.shown ? whomToCall(board.shown, tile.horse, ticker.now) : null;
    this.#session.tap({ kind: 'helpAsked', horse: tile.horse, call, to }, by);
    const named = to === null ? null : board.nameOf(to);
    this.#session.notices.say(`asked-${tile.horse}`, say.CALL.asked(tile.name, call, named));
  }

  /** What was seen on a horse outside its feet check. */
  tell(horse: string, findings: readonly Finding[], words: string, person: string | null): void {
    if (person === null) this.open({ sheet: 'told', horse, findings, words });
    else this.tellBy(horse, findings, words, person);
  }

  tellBy(horse: string, findings: readonly Finding[], words: string, by: string | null): void {
    this.close();
    this.#remember(by);
    for (const finding of findings) this.#see(horse, finding, words, by);
    this.#session.notices.say(`told-${horse}`, say.toldOf(this.#session.board.nameOf(horse)));
  }

  #see(horse: string, finding: Finding, words: string, by: string | null): string {
    return this.#session.tap({ kind: 'findingSeen', horse, finding, words }, by);
  }

  arrived(volunteer: string): void {
    this.#session.tap({ kind: 'volunteerArrived', volunteer });
    this.#remember(volunteer);
  }

  #remember(by: string | null): void {
    if (by !== null) this.#session.person.tapped(by, this.#session.ticker.hub);
  }
}
