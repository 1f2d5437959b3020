/** How a plot is drawn: dark on white, told apart by shape and darkness alone. */
import type uPlot from 'uplot';

export type Plotted = {
  readonly x: readonly number[];
  readonly y: readonly number[];
  /** Bars unless said otherwise. */
  readonly as?: 'bars' | 'points';
  /** The part of each bar that is drawn dark. */
  readonly dark?: readonly number[];
  /** A dashed line across; null or missing: none. */
  readonly limit?: number | null;
  readonly label: (x: number) => string;
};

const HEIGHT_PX = 260;
const WIDEST_PX = 900;
const INK = '#1b1916';
const GREY = '#b3ab9d';
const RULE = '#c9c1ae';

/** Room for a name that is written upright, px; a letter of it takes about so much. */
const LETTER_PX = 8;
const LEVEL_LABEL_PX = 56;

/** `width`: there is, in px. `Plot`: the library, which is loaded only when something is drawn. */
export function plotOptions(
  { x, y, as = 'bars', dark, limit = null, label }: Plotted,
  width: number,
  Plot: typeof uPlot,
): { options: uPlot.Options; data: uPlot.AlignedData } {
  const isBars = as === 'bars';
  const wide = Math.min(width, WIDEST_PX);
  const labels = x.map(label);
  const isCrowded = isBars && labels.length * LEVEL_LABEL_PX > wide;
  const longest = Math.max(0, ...labels.map(({ length }) => length));
  const axis = { stroke: INK, grid: { stroke: RULE, width: 1 } };
  const bars = Plot.paths.bars?.({ size: [0.6, 60] });
  const bar = (fill: string): uPlot.Series => ({
    stroke: INK,
    width: 2,
    fill,
    ...(bars && { paths: bars }),
    points: { show: false },
  });
  const points: uPlot.Series = {
    stroke: INK,
    width: 0,
    paths: () => null,
    points: { show: true, size: 7, fill: INK },
  };
  const top = (most: number): number => Math.max(1, most, limit ?? 0) * 1.1;
  // Lines run from edge to edge, not from the middle of the first bar to that of the last.
  const across = (plot: uPlot, y: number, dash: number[]): void => {
    const at = plot.valToPos(y, 'y', true);
    const { left, width: inside } = plot.bbox;
    plot.ctx.save();
    plot.ctx.setLineDash(dash);
    plot.ctx.strokeStyle = INK;
    plot.ctx.lineWidth = 2 * devicePixelRatio;
    plot.ctx.beginPath();
    plot.ctx.moveTo(left, at);
    plot.ctx.lineTo(left + inside, at);
    plot.ctx.stroke();
    plot.ctx.restore();
  };
  const lines: uPlot.Plugin = {
    hooks: {
      draw: (plot) => {
        if (!isBars) across(plot, 0, []);
        if (limit !== null) across(plot, limit, [10, 8]);
      },
    },
  };
  const options: uPlot.Options = {
    width: wide,
    height: HEIGHT_PX + (isCrowded ? longest * LETTER_PX - 20 : 0),
    legend: { show: false },
    cursor: { show: false },
    plugins: [lines],
    scales: {
      x: isBars ? { time: false, range: [-0.6, x.length - 0.4] } : { time: false },
      y: { range: (_, least, most) => [Math.min(0, least), top(most)] },
    },
    axes: [
      {
        ...axis,
        values: (_, splits) => splits.map(label),
        ...(isBars && { splits: () => [...x], grid: { show: false } }),
        ...(isCrowded && { rotate: -90, size: longest * LETTER_PX + 14 }),
      },
      { ...axis },
    ],
    series: [{}, isBars ? bar(GREY) : points, ...(dark ? [bar(INK)] : [])],
  };
  return { options, data: [[...x], [...y], ...(dark ? [[...dark]] : [])] };
}
