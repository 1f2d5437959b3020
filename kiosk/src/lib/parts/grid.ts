/** How many tiles fit on one page of glass, and in which columns and rows. */

export type Room = { readonly width: number; readonly height: number };
export type Grid = { readonly columns: number; readonly rows: number; readonly pages: number };

/** A cell's least size in CSS pixels, gap included: room for a tile's words and for two targets of 20 mm side by side. */
export const LEAST_TILE: Room = { width: 246, height: 244 };

/** With fewer horses than this the cells stay as they are for so many: a lone tile as large as the wall reads no better. */
export const FEWEST_CELLS = 6;

/** A tile about this wide for its height reads best. */
const GOOD_RATIO = 1.15;

/**
 * The grid for `count` cells in `room`: all on one page with the largest, best shaped cells if they fit, else as many a
 * page as fit. `fixed` cells (as the board's own plate) come again on every page.
 */
export function fitGrid(count: number, room: Room, fixed = 0, least: Room = LEAST_TILE): Grid {
  const mostColumns = Math.max(1, Math.floor(room.width / least.width));
  const mostRows = Math.max(1, Math.floor(room.height / least.height));
  const cells = Math.max(count + fixed, Math.min(FEWEST_CELLS, mostColumns * mostRows));
  if (cells > mostColumns * mostRows) {
    const perPage = Math.max(1, mostColumns * mostRows - fixed);
    return { columns: mostColumns, rows: mostRows, pages: Math.ceil(count / perPage) };
  }
  let best: Grid = { columns: mostColumns, rows: mostRows, pages: 1 };
  let most = -Infinity;
  for (let columns = 1; columns <= mostColumns; columns += 1) {
    const rows = Math.max(1, Math.ceil(cells / columns));
    if (rows > mostRows) continue;
    const width = room.width / columns;
    const height = room.height / rows;
    const size = Math.min(width / GOOD_RATIO, height);
    if (size > most) [most, best] = [size, { columns, rows, pages: 1 }];
  }
  return best;
}

/** The items of page `page` (from 0), the last page when there are fewer. */
export function pageOf<T>(items: readonly T[], grid: Grid, page: number, fixed = 0): readonly T[] {
  const perPage = Math.max(1, grid.columns * grid.rows - fixed);
  const shown = Math.min(page, Math.max(0, grid.pages - 1));
  return items.slice(shown * perPage, (shown + 1) * perPage);
}
