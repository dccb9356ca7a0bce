/**
 * How warm a finished piece may get before it softens: the glass transition that its conversion gives.
 * (Tg − Tg0)/(Tg∞ − Tg0) = λα/(1 − (1 − λ)α) (DiBenedetto; Pascault & Williams 1990, J. Polym. Sci. B 28:85).
 * A resin that cures in a room stops short, because it turns to glass before it is through.
 */

/** Invented as typical of clear casting resins (physics §4); no measured set for one was found. */
const UNCURED_C = -40;
const CURED_C = 90;
const LAMBDA = 0.4;

/** Softer than this it gives under a finger, °C. */
const SOFT_AT_HAND_C = 20;

export interface Softening {
  /** Between these it goes from glass to rubber, over the family, °C. */
  readonly fromC: number;
  readonly toC: number;
  readonly words: string;
}

/** Glass transition at a conversion from 0 to 1, °C. */
export function glassC(alpha: number): number {
  return UNCURED_C + ((CURED_C - UNCURED_C) * LAMBDA * alpha) / (1 - (1 - LAMBDA) * alpha);
}

/** Conversion at which the glass transition reaches a temperature between uncured and cured: where cure at it all but stops. */
export function conversionAtGlass(temperatureC: number): number {
  const x = Math.min(1, Math.max(0, (temperatureC - UNCURED_C) / (CURED_C - UNCURED_C)));
  return x / (LAMBDA + (1 - LAMBDA) * x);
}

/** A span of temperatures in the artist's words. */
export function softeningOf(fromC: number, toC: number): Softening {
  if (toC < SOFT_AT_HAND_C) return { fromC, toC, words: 'Stays soft: it hardly cures in a room this cold. Keep it warmer.' };
  const span = toC - fromC < 2 ? `about ${Math.round(fromC)} °C` : `${Math.round(fromC)} to ${Math.round(toC)} °C`;
  const care = fromC < 45 ? 'Keep it out of the sun and off warm lamps until it has had a warm rest.' : 'Keep it off warm lamps and out of a car in the sun.';
  return { fromC, toC, words: `Softens at ${span} once it has cured in this room. ${care}` };
}
