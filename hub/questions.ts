/** What a coordinator asks, answered when it has been worked out. Nothing is written down for it. */
import type { Board } from '#core/day/board.ts';
import type { FromHub, FromTablet } from '#core/wire/messages.ts';
import type { Audience } from './audience.ts';
import { consider } from './consider.ts';
import type { Planner } from './planner.ts';
import type { Session } from './session.ts';
import type { StandInFinder } from './standIns.ts';

export type Question = Extract<FromTablet, { say: 'whatIf' | 'askStandIns' }>;

type QuestionsParts = {
  readonly planner: Planner;
  readonly standIns: StandInFinder;
  readonly audience: Audience;
  /** As it is on disk. */
  readonly board: () => Board;
  /** Barn time in ms. */
  readonly barnNow: () => number;
  /** The question could not be worked out. */
  readonly broken: (session: Session) => void;
  readonly log: (line: string) => void;
};

export class Questions {
  readonly #parts: QuestionsParts;

  constructor(parts: QuestionsParts) {
    this.#parts = parts;
  }

  /** Never rejects. */
  async answer(session: Session, question: Question): Promise<void> {
    const { audience, broken, log } = this.#parts;
    try {
      audience.say(session, await this.#workOut(question));
    } catch (error) {
      log(`Could not answer ${question.say}: ${String(error)}`);
      broken(session);
    }
  }

  async #workOut(question: Question): Promise<FromHub> {
    const { planner, standIns, board, barnNow } = this.#parts;
    const { ask } = question;
    switch (question.say) {
      case 'whatIf':
        return { say: 'considered', ask, ...(await consider(planner, board(), question.facts, barnNow())) };
      case 'askStandIns':
        return {
          say: 'standIns',
          ask,
          ...(await standIns.find(board(), barnNow(), question.about, question.language)),
        };
    }
  }
}
