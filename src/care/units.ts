/** Exact unit conversions used by the rules of care. All functions are total; NaN stays NaN. */

/** International pound, exact by definition (1959 agreement). */
const KG_PER_POUND = 0.453_592_37;
/** 14 pounds. */
const KG_PER_STONE = 14 * KG_PER_POUND;
/** International inch, exact by definition. */
const CM_PER_INCH = 2.54;
/** International mile, exact by definition. */
const KM_PER_MILE = 1.609_344;

/** Degrees Celsius to Fahrenheit. */
export function fahrenheitFromCelsius(celsius: number): number {
  return (celsius * 9) / 5 + 32;
}

/** Degrees Fahrenheit to Celsius. */
export function celsiusFromFahrenheit(fahrenheit: number): number {
  return ((fahrenheit - 32) * 5) / 9;
}

/** Pounds to kilograms. */
export function kgFromPounds(pounds: number): number {
  return pounds * KG_PER_POUND;
}

/** Kilograms to pounds. */
export function poundsFromKg(kg: number): number {
  return kg / KG_PER_POUND;
}

/** Stones to kilograms. */
export function kgFromStones(stones: number): number {
  return stones * KG_PER_STONE;
}

/** Inches to centimetres. */
export function cmFromInches(inches: number): number {
  return inches * CM_PER_INCH;
}

/** Centimetres to inches. */
export function inchesFromCm(cm: number): number {
  return cm / CM_PER_INCH;
}

/** Kilometres an hour to miles an hour. */
export function mphFromKmh(kmh: number): number {
  return kmh / KM_PER_MILE;
}

/** Miles an hour to kilometres an hour. */
export function kmhFromMph(mph: number): number {
  return mph * KM_PER_MILE;
}

/** Metres a second to miles an hour. */
export function mphFromMetresASecond(metres: number): number {
  return mphFromKmh(metres * 3.6);
}

/** Miles an hour to metres a second. */
export function metresASecondFromMph(mph: number): number {
  return kmhFromMph(mph) / 3.6;
}
