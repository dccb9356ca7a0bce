/**
 * Water vapor in the air: how warm a surface must be so that none settles on it. Magnus' formula for the pressure over
 * water with the coefficients of Alduchov & Eskridge 1996 (J. Appl. Meteorol. 35:601): within 0.4 % from −40 to 50 °C.
 */

/** None, °C. */
const MAGNUS = { a: 17.625, b: 243.04 } as const;

/** The temperature at which air of some relative humidity (percent) is saturated, °C; −Infinity for dry air. Never over the air's own. */
export function dewPointC(temperatureC: number, humidity: number): number {
  const exponent = Math.log(humidity / 100) + (MAGNUS.a * temperatureC) / (MAGNUS.b + temperatureC);
  return exponent === -Infinity ? -Infinity : (MAGNUS.b * exponent) / (MAGNUS.a - exponent);
}
