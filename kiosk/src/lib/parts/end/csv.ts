/** A table as a CSV file. */
import type { EndTable } from './tables.ts';

/** Until the browser has surely written the file. */
const KEPT_MS = 60_000;

/** Gives the browser the file to keep. The library comes only now. */
export async function downloadCsv({ id, heads, rows }: EndTable, name: string): Promise<void> {
  const { writeCells } = await import('#core/exchange/csv/write.ts');
  const text = writeCells([heads, ...rows.map((row) => row.map(String))]);
  const url = URL.createObjectURL(new Blob([text], { type: 'text/csv;charset=utf-8' }));
  const link = document.createElement('a');
  link.href = url;
  link.download = `${name}-${id}.csv`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), KEPT_MS);
}
