/** Growth over time, by least squares. */
export type Point = { readonly at: number; readonly kb: number };

/** kB for each unit of `at`. */
export function slope(points: readonly Point[]): number {
  const at = points.reduce((sum, point) => sum + point.at, 0) / points.length;
  const kb = points.reduce((sum, point) => sum + point.kb, 0) / points.length;
  const up = points.reduce((sum, point) => sum + (point.at - at) * (point.kb - kb), 0);
  return up / points.reduce((sum, point) => sum + (point.at - at) ** 2, 0);
}
