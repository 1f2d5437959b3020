/**
 * Measures of a typeface as parts of its type size (em). Letters are sized by their capitals, never by the type size:
 * two faces of one size differ in how tall their capitals are.
 */
export type Face = {
  /** Height of a capital. */
  readonly capital: number;
  /** Width of a letter with the gap after it, on average. */
  readonly advance: number;
  /** From one line to the next. */
  readonly line: number;
};

/**
 * A sans serif as tablets have them, bold: capitals measure 0.688 em (Liberation Sans) to 0.714 em (Noto Sans), read from
 * the fonts' own tables; 0.58 em a letter and 1.2 em a line are common practice, no source.
 */
export const USUAL_FACE: Face = { capital: 0.7, advance: 0.58, line: 1.2 };

/** Type size in mm whose capitals are `capitalMm` high. */
export function typeMm(face: Face, capitalMm: number): number {
  return capitalMm / face.capital;
}
