/** Which of the door's two large facts can be read from where people stand, and how large each is. */
import { arcMinutesOf, EASY_ARC_MINUTES, FLOOR_ARC_MINUTES } from '#core/sight/angle.ts';
import { USUAL_FACE } from '#core/sight/face.ts';
import { farthestFor, USABLE } from '#core/sight/fits.ts';
import { chooseLayer, WORK_METRES, type Block } from '#core/sight/layer.ts';
import type { Panel } from '#core/sight/panel.ts';
import type { Room } from '../grid.ts';

/** Up to 99 minutes or hours. */
const MINUTES: Block = { rows: 1, letters: 2 };

/** The mark beside the word is as wide as so many letters, its gap included. */
const MARK_LETTERS = 2;

const MM_AN_INCH = 25.4;

/** Part of the panel's width and height that the two facts have when nothing else is to be said; as the door's own grid has it. */
const SHARE = { wide: { width: 0.44, height: 0.56 }, tall: { width: 0.94, height: 0.26 } };

export type Glance = {
  /** How many of the two facts are read from there: the minutes first, then the word. */
  readonly facts: 0 | 1 | 2;
  /** Type size of those in CSS pixels, the largest there is room for; with none, that of the minutes. */
  readonly typePx: number;
  /** Minutes of arc their capitals have; 0 when none can be read. */
  readonly arcMinutes: number;
};

/** What stands large in `room` (CSS pixels) for people at `metres`; `word` in the tablet's language. */
export function glanceIn(room: Room, mmPerPx: number, metres: number, word: string): Glance {
  const panel: Panel = { ...room, mmPerPx };
  const facts = [MINUTES, wordBlock(word)];
  // Who can touch the glass reads it at any size here: it is made for the first step back.
  const chosen = chooseLayer(panel, USUAL_FACE, Math.max(metres, WORK_METRES + 0.1), facts);
  const shown = chosen.layer === 'glance' ? chosen.facts : 0;
  const typePx = largestPx(room, facts.slice(0, Math.max(1, shown)));
  const capitalMm = typePx * USUAL_FACE.capital * mmPerPx;
  return {
    facts: shown >= 2 ? 2 : shown === 1 ? 1 : 0,
    typePx,
    arcMinutes: shown === 0 ? 0 : arcMinutesOf(capitalMm, metres),
  };
}

/** What a whole panel is good for at a distance. */
export type Serves = {
  readonly facts: 0 | 1 | 2;
  /** From how far the minutes can just be read, and both facts with ease; in metres. */
  readonly minutesFrom: number;
  readonly bothFrom: number;
  /** Corner to corner in inches: a panel of this shape that would show one fact more from there. */
  readonly needsInches: number;
};

/** What a panel of `screen` (CSS pixels) shows people at `metres` when it hangs at an arena's door. */
export function doorServes(screen: Room, mmPerPx: number, metres: number, word: string): Serves {
  const share = screen.width >= screen.height ? SHARE.wide : SHARE.tall;
  const room = { width: screen.width * share.width, height: screen.height * share.height };
  const panel: Panel = { ...room, mmPerPx };
  const { facts } = glanceIn(room, mmPerPx, metres, word);
  const asWord = wordBlock(word);
  const minutesFrom = farthestFor(panel, USUAL_FACE, MINUTES, FLOOR_ARC_MINUTES);
  const both = { rows: MINUTES.rows + asWord.rows, letters: Math.max(MINUTES.letters, asWord.letters) };
  const bothFrom = farthestFor(panel, USUAL_FACE, both, EASY_ARC_MINUTES);
  const inches = (Math.hypot(screen.width, screen.height) * mmPerPx) / MM_AN_INCH;
  return {
    facts,
    minutesFrom,
    bothFrom,
    needsInches: Math.ceil((inches * metres) / (facts === 0 ? minutesFrom : bothFrom)),
  };
}

function wordBlock(word: string): Block {
  return { rows: 1, letters: word.length + MARK_LETTERS };
}

/** The largest type in CSS pixels with which these facts stand one under the other in `room`. */
function largestPx({ width, height }: Room, facts: readonly Block[]): number {
  const rows = facts.reduce((sum, fact) => sum + fact.rows, 0);
  const letters = Math.max(...facts.map((fact) => fact.letters));
  return USABLE * Math.min(height / (rows * USUAL_FACE.line), width / (letters * USUAL_FACE.advance));
}
