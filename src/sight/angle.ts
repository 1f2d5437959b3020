/** How tall a letter must be to be read from a distance: visual angle, in minutes of arc of a capital's height. */

/** Below this single letters are read with trouble: NUREG-0700 rev. 2, 1.3.1-4 (ISO 9241-3 has the same figure). */
export const FLOOR_ARC_MINUTES = 16;

/** Read with ease; 20 to 22 are preferred: NUREG-0700 rev. 2, 1.3.1-4. */
export const EASY_ARC_MINUTES = 20;

const ARC_MINUTES_A_DEGREE = 60;
const RADIANS_A_DEGREE = Math.PI / 180;
const MM_A_METRE = 1000;

/** Capital height in mm that spans `arcMinutes` at `metres`: h = 2 d tan(angle / 2). */
export function capitalMm(metres: number, arcMinutes: number): number {
  return 2 * metres * MM_A_METRE * halfTangent(arcMinutes);
}

/** The angle in minutes of arc that a capital of `mm` spans at `metres`. */
export function arcMinutesOf(mm: number, metres: number): number {
  return (2 * Math.atan(mm / (2 * metres * MM_A_METRE)) * ARC_MINUTES_A_DEGREE) / RADIANS_A_DEGREE;
}

/** From how far, in metres, a capital of `mm` still spans `arcMinutes`: d = h / (2 tan(angle / 2)). */
export function farthestMetres(mm: number, arcMinutes: number): number {
  return mm / (2 * MM_A_METRE * halfTangent(arcMinutes));
}

function halfTangent(arcMinutes: number): number {
  return Math.tan((arcMinutes / ARC_MINUTES_A_DEGREE / 2) * RADIANS_A_DEGREE);
}
