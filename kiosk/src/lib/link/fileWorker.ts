/** Reads and writes files in a thread of its own, so that the page stays awake. The libraries for it are loaded only here. */
import type { Barn } from '#core/barn/barn.ts';
import type { Kind } from '#core/exchange/csv/columns.ts';
import { writeTable } from '#core/exchange/csv/write.ts';
import { previewFile, type FileAnswers, type FilePreview } from '#core/exchange/file.ts';
import { decode, type Encoding } from './decode.ts';
import { newId } from './ids.ts';

export type FileAsk =
  | {
      readonly ask: 'preview';
      readonly name: string;
      readonly bytes: Uint8Array;
      readonly barn: Barn;
      readonly today: string;
      readonly answers: FileAnswers;
    }
  | { readonly ask: 'table'; readonly kind: Kind; readonly barn: Barn; readonly from: string };

export type FileSaid =
  | { readonly say: 'progress'; readonly done: number; readonly of: number }
  | { readonly say: 'previewed'; readonly preview: FilePreview; readonly encoding: Encoding }
  | { readonly say: 'table'; readonly text: string }
  /** Its bytes are not the text they claim to be. */
  | { readonly say: 'notText' };

addEventListener('message', ({ data }: MessageEvent<FileAsk>) => say(answer(data)));

function say(said: FileSaid): void {
  postMessage(said);
}

function answer(asked: FileAsk): FileSaid {
  if (asked.ask === 'table') return { say: 'table', text: writeTable(asked.kind, asked.barn, asked.from) };
  const decoded = decode(asked.bytes);
  if (!decoded) return { say: 'notText' };
  const { name, barn, today, answers } = asked;
  const progress = (done: number, of: number): void => say({ say: 'progress', done, of });
  const preview = previewFile({ name, text: decoded.text }, barn, today, answers, newId, progress);
  return { say: 'previewed', preview, encoding: decoded.encoding };
}
