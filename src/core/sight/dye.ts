/**
 * How a dye takes red, green and blue light away, by the Beer–Lambert law in linear light. Its color gives the shares of the
 * three, its swatch how strong it is: dye of another strength is the same color raised to a power.
 */
import type { Swatch, Tint } from '../scene/scene.ts';
import { decoded, lightOf, luminance, type Light } from './color.ts';
import type { Step } from './water.ts';

/** A dye nobody has poured a chip of: what it would pass (invented for this, as acceptance case 12 has it). */
export const TYPICAL_SWATCH: Swatch = { percent: 0.1, mm: 10, passes: 0.9 };
/** Half a step of 256: a color's digits say no more, and no dye takes all of a light or nothing of it. */
const HALF_STEP = 0.5 / 255;
const LEAST = decoded(HALF_STEP);
const MOST = decoded(1 - HALF_STEP);
/** Halvings of the power's range: the last bit of a double. */
const HALVINGS = 60;

/** Napierian absorbance of 1 % of dye over 1 mm, for red, green and blue. */
export function absorbancesOf({ color, swatch = TYPICAL_SWATCH }: Pick<Tint, 'color' | 'swatch'>): Light {
  const [r, g, b] = lightOf(color).map((channel) => -Math.log(Math.min(MOST, Math.max(LEAST, channel))));
  const power = powerFor([r, g, b], swatch.passes);
  const through = swatch.percent * swatch.mm;
  return [(power * r) / through, (power * g) / through, (power * b) / through];
}

/** Share of red, green and blue that is left after ways through dyed water; `longer` stretches each way against straight down. */
export function lightLeft(steps: readonly Step[], longer: (step: Step) => number): Light {
  let [r, g, b] = [0, 0, 0];
  for (const step of steps) {
    const { tint } = step.stratum;
    if (!tint) continue;
    const dyed = tint.percent * step.mm * longer(step);
    const [ar, ag, ab] = absorbancesOf(tint);
    r += ar * dyed;
    g += ag * dyed;
    b += ab * dyed;
  }
  return [Math.exp(-r), Math.exp(-g), Math.exp(-b)];
}

/** The power that makes a color's luminance `passes`, between 0 and 1: luminance falls with it. */
function powerFor([r, g, b]: Light, passes: number): number {
  const over = (power: number): boolean => luminance([Math.exp(-power * r), Math.exp(-power * g), Math.exp(-power * b)]) > passes;
  let low = 0;
  let high = -Math.log(passes) / Math.min(r, g, b);
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2;
    if (over(middle)) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
