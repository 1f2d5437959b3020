/** The page's side of files: a thread for each question, the way to the hub, and into this tablet's own folder. */
import type { RecordsImported } from '#core/day/importRecords.ts';
import { ImportStep } from '#core/wire/imports.ts';
import type { FileAsk, FileSaid } from './fileWorker.ts';
import { newId } from './ids.ts';

type Answer = Exclude<FileSaid, { say: 'progress' }>;

/** Null: stopped by `signal`, or the thread failed. */
export function askThread(
  asked: FileAsk,
  signal: AbortSignal,
  progress: (done: number, of: number) => void = () => {},
): Promise<Answer | null> {
  const worker = new Worker(new URL('./fileWorker.ts', import.meta.url), { type: 'module' });
  return new Promise<Answer | null>((done) => {
    signal.addEventListener('abort', () => done(null));
    worker.addEventListener('error', () => done(null));
    worker.addEventListener('message', ({ data }: MessageEvent<FileSaid>) => {
      if (data.say === 'progress') progress(data.done, data.of);
      else done(data);
    });
    worker.postMessage(asked);
  }).finally(() => worker.terminate());
}

export type ImportEnd = Extract<ImportStep, { step: 'written' | 'refused' }>;

/** Sends a file's records. Null: the hub did not answer to the end. */
export async function sendImport(
  fact: RecordsImported,
  progress: (step: ImportStep) => void,
): Promise<ImportEnd | null> {
  const body = JSON.stringify({ id: newId(), by: null, fact });
  try {
    const response = await fetch('/imported', { method: 'POST', body });
    if (!response.ok || !response.body) return null;
    let end: ImportEnd | null = null;
    for await (const line of lines(response.body)) {
      const step = ImportStep.parse(JSON.parse(line));
      progress(step);
      if (step.step === 'written' || step.step === 'refused') end = step;
    }
    return end;
  } catch {
    return null;
  }
}

async function* lines(body: ReadableStream<Uint8Array>): AsyncGenerator<string> {
  const reader = body.getReader();
  const decoder = new TextDecoder();
  let rest = '';
  for (;;) {
    const { done, value } = await reader.read();
    if (done) return;
    const whole = `${rest}${decoder.decode(value, { stream: true })}`.split('\n');
    rest = whole.pop() ?? '';
    yield* whole;
  }
}

/** Gives `text` to the browser as a file to keep. */
export function keepAsFile(name: string, text: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([text], { type: 'text/csv;charset=utf-8' }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 0);
}
