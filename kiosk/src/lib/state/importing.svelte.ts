/** One file on its way in: chosen, looked at, asked about, taken, and taken back. */
import type { Barn } from '#core/barn/barn.ts';
import type { RecordsImported } from '#core/day/importRecords.ts';
import type { Reason } from '#core/day/ops.ts';
import { importOf, takingBack } from '#core/exchange/facts.ts';
import { NOTHING_SAID, type FileAnswers, type FilePreview } from '#core/exchange/file.ts';
import type { Counts } from '#core/exchange/gathered.ts';
import type { ImportStep } from '#core/wire/imports.ts';
import type { Encoding } from '../link/decode.ts';
import { askThread, sendImport, type ImportEnd } from '../link/files.ts';

/** Longest file that is looked at: twice as long as what the hub takes. In bytes. */
const MOST_BYTES = 16 * 1024 * 1024;

type Failure = 'notText' | 'tooLarge' | 'thread' | 'noAnswer' | 'tooLong' | 'malformed' | 'readOnly';

export type ImportStage =
  | { readonly is: 'choosing' }
  | { readonly is: 'reading'; readonly done: number; readonly of: number }
  | {
      readonly is: 'looked';
      readonly preview: FilePreview;
      readonly encoding: Encoding;
      /** The records have changed since they were last shown. */
      readonly isAnew: boolean;
    }
  | { readonly is: 'sending'; readonly step: ImportStep['step'] | null }
  | { readonly is: 'taken'; readonly counts: Counts; readonly back: RecordsImported }
  | { readonly is: 'takenBack' }
  | { readonly is: 'failed'; readonly why: Failure | Reason };

export type ImportWorld = { readonly barn: () => Barn; readonly today: () => string };

export class Importing {
  readonly #world: ImportWorld;
  stage = $state.raw<ImportStage>({ is: 'choosing' });
  answers = $state.raw<FileAnswers>(NOTHING_SAID);
  name = $state('');
  #bytes: Uint8Array = new Uint8Array();
  #run = new AbortController();

  constructor(world: ImportWorld) {
    this.#world = world;
  }

  async choose(file: File): Promise<void> {
    this.name = file.name;
    this.answers = NOTHING_SAID;
    if (file.size > MOST_BYTES) return this.#fail('tooLarge');
    this.#bytes = new Uint8Array(await file.arrayBuffer());
    await this.#look();
  }

  /** One more answer: the file is looked at again. */
  async say(more: Partial<FileAnswers>): Promise<void> {
    this.answers = { ...this.answers, ...more };
    await this.#look();
  }

  /** Takes what was shown; where the records have changed so that it would come to something else, shows that first. */
  async take(): Promise<void> {
    if (this.stage.is !== 'looked') return;
    const shown = this.stage.preview.counts;
    const before = this.#world.barn();
    const looked = await this.#look();
    if (!looked) return;
    if (JSON.stringify(looked.counts) !== JSON.stringify(shown)) return this.#showAnew();
    const fact = importOf(this.name, looked.put);
    const end = await this.#send(fact);
    if (end?.step === 'written') {
      this.stage = { is: 'taken', counts: looked.counts, back: takingBack(fact, before) };
    }
  }

  async takeBack(): Promise<void> {
    if (this.stage.is !== 'taken') return;
    const end = await this.#send(this.stage.back);
    if (end?.step === 'written') this.stage = { is: 'takenBack' };
  }

  /** Another file, or none. */
  again(): void {
    this.#run.abort();
    this.#bytes = new Uint8Array();
    this.stage = { is: 'choosing' };
  }

  async #look(): Promise<FilePreview | null> {
    this.#run.abort();
    const { signal } = (this.#run = new AbortController());
    this.stage = { is: 'reading', done: 0, of: 0 };
    const said = await askThread(
      {
        ask: 'preview',
        name: this.name,
        bytes: this.#bytes,
        barn: this.#world.barn(),
        today: this.#world.today(),
        answers: this.answers,
      },
      signal,
      (done, of) => (this.stage = { is: 'reading', done, of }),
    );
    if (signal.aborted) return null;
    if (said?.say !== 'previewed') {
      this.#fail(said?.say === 'notText' ? 'notText' : 'thread');
      return null;
    }
    this.stage = { is: 'looked', preview: said.preview, encoding: said.encoding, isAnew: false };
    return said.preview;
  }

  #showAnew(): void {
    if (this.stage.is === 'looked') this.stage = { ...this.stage, isAnew: true };
  }

  async #send(fact: RecordsImported): Promise<ImportEnd | null> {
    this.stage = { is: 'sending', step: null };
    const end = await sendImport(fact, ({ step }) => (this.stage = { is: 'sending', step }));
    if (!end) this.#fail('noAnswer');
    else if (end.step === 'refused')
      this.#fail(end.why ?? (end.code === 'declined' ? 'malformed' : end.code));
    return end;
  }

  #fail(why: Failure | Reason): void {
    this.stage = { is: 'failed', why };
  }
}
