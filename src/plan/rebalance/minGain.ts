/** What gains less, in ms, is not offered: horses hear a hurried aisle. Common practice, no source. */
export const MIN_GAIN_MS = 60_000;
