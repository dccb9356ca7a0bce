/** Paint to read in color: the Beer–Lambert law from a swatch, laws of the paint that is needed, the nearest one by brute force. */
import { describe, expect, it } from 'vitest';
import { colorDifference } from '../../../src/core/sight/color-difference.ts';
import { decoded, hexOf, labOf, lightOf, luminance, type Light } from '../../../src/core/sight/color.ts';
import { absorbancesOf, lightLeft, TYPICAL_SWATCH } from '../../../src/core/sight/dye.ts';
import { otherHue, paintFor, paintToRead, through } from '../../../src/core/sight/paint.ts';
import { stepsBetween, type Stratum } from '../../../src/core/sight/water.ts';
import { seeded } from '../solid/oracle.ts';

const dyed = (toMm: number, percent: number, color = '#2f6f73', swatch = TYPICAL_SWATCH, fromMm = 0): Stratum => ({ fromMm, toMm, index: 1.55, tint: { color, percent, swatch } });
const straight = () => 1;
const left = (strata: readonly Stratum[], downToMm = 0) => lightLeft(stepsBetween(strata, downToMm, 100), straight);
const randomLight = (random: () => number, least = 0): Light => [least + (1 - least) * random(), least + (1 - least) * random(), least + (1 - least) * random()];

describe('light left by dyed water (Beer–Lambert)', () => {
  it.each(['#2f6f73', '#c87137', '#123456', '#ffffff', '#000000', '#00ff00'])('%s: a chip as its swatch lets its share through, whatever its color', (color) => {
    for (const passes of [0.9, 0.5, 0.05]) {
      expect(luminance(left([dyed(10, 0.1, color, { percent: 0.1, mm: 10, passes })]))).toBeCloseTo(passes, 9);
    }
  });

  it('twice the way, twice the dye and two layers of it are the square; half the way in and half out the same', () => {
    const once = left([dyed(10, 0.1)]);
    for (const twice of [left([dyed(20, 0.1)]), left([dyed(10, 0.2)]), left([dyed(10, 0.1), dyed(20, 0.1, '#2f6f73', TYPICAL_SWATCH, 10)]), lightLeft(stepsBetween([dyed(10, 0.1)], 0, 10), () => 2)]) {
      twice.forEach((channel, i) => expect(channel).toBeCloseTo(once[i] ** 2, 12));
    }
  });

  it('gray dye at 0.164 % passes half through four layers of 10 mm, 1 to 0.90 a layer at 0.10 % (acceptance case 12)', () => {
    const even = left([10, 20, 30, 40].map((toMm) => dyed(toMm, 0.16447, '#ffffff', TYPICAL_SWATCH, toMm - 10)));
    for (const channel of even) expect(channel).toBeCloseTo(0.5, 3);
  });

  it('keeps the color: channels’ absorbances stand in its own proportion', () => {
    const [r, g, b] = lightOf('#2f6f73').map((channel) => -Math.log(channel));
    const [R, G, B] = absorbancesOf({ color: '#2f6f73', swatch: { percent: 0.2, mm: 5, passes: 0.7 } });
    expect(R / G).toBeCloseTo(r / g, 12);
    expect(B / G).toBeCloseTo(b / g, 12);
  });

  it('clear water takes nothing', () => {
    expect(left([{ fromMm: 0, toMm: 40, index: 1.5, tint: null }])).toEqual([1, 1, 1]);
  });
});

describe('the paint that is needed', () => {
  it('without a tint is the color itself', () => {
    for (const hex of ['#c87137', '#ffffff', '#000000', '#1f2e8a']) {
      expect(paintToRead(hex, [1, 1, 1])).toMatchObject({ wanted: hex, paint: hex, seen: hex, possible: true, difference: 0 });
    }
  });

  it.each([1, 2, 3, 4])('looks as wanted through the water wherever it is possible, seed %i', (seed) => {
    const random = seeded(seed);
    let possible = 0;
    for (let i = 0; i < 300; i++) {
      const wanted = randomLight(random).map((channel) => channel ** 3) as unknown as Light;
      const water = randomLight(random, 0.3);
      const needed = wanted.map((channel, k) => channel / water[k]);
      if (Math.max(...needed) > 1) continue;
      possible++;
      const found = paintFor(wanted, water);
      expect(found.possible).toBe(true);
      through(found.light, water).forEach((channel, k) => expect(channel).toBeCloseTo(wanted[k], 12));
    }
    expect(possible).toBeGreaterThan(50);
  });

  it('is lighter in every channel the deeper it lies', () => {
    let before: Light = [0, 0, 0];
    for (let deep = 0; deep <= 40; deep += 5) {
      const { light, possible } = paintFor(lightOf('#3d3a35'), left([dyed(40, 0.1)], 40 - deep));
      expect(possible).toBe(true);
      light.forEach((channel, k) => expect(channel).toBeGreaterThanOrEqual(before[k]));
      before = light;
    }
    expect(before[0]).toBeGreaterThan(lightOf('#3d3a35')[0] * 1.5);
  });

  it('is not possible just where a channel would have to be brighter than white', () => {
    const water: Light = [0.5, 0.8, 0.8];
    expect(paintFor([0.499, 0.2, 0.2], water).possible).toBe(true);
    expect(paintFor([0.51, 0.2, 0.2], water).possible).toBe(false);
  });
});

describe('where no paint can', () => {
  it.each(Array.from({ length: 6 }, (_, i) => i + 1))('no paint of 6,000 at random looks nearer, seed %i', (seed) => {
    const random = seeded(seed);
    const water = randomLight(random, 0.15);
    let wanted: Light = [1, 1, 1];
    do wanted = randomLight(random);
    while (paintFor(wanted, water).possible);
    const goal = labOf(wanted);
    const { light, difference } = paintFor(wanted, water);
    expect(Math.min(...light)).toBeGreaterThanOrEqual(0);
    expect(Math.max(...light)).toBeLessThanOrEqual(1);
    expect(colorDifference(goal, labOf(through(light, water)))).toBeCloseTo(difference, 9);
    for (let i = 0; i < 6_000; i++) {
      // Often with a channel or two full, where the nearest mostly lies.
      const seen = labOf(through(randomLight(random).map((channel) => decoded(Math.min(1, 1.2 * channel))) as unknown as Light, water));
      // A tenth of what anyone can see.
      if (!otherHue(goal, seen)) expect(colorDifference(goal, seen)).toBeGreaterThan(difference - 0.1);
    }
  });

  it('says so, with what it will look like', () => {
    const orange = paintToRead('#C87137', [0.35, 0.7, 0.68]);
    expect(orange).toMatchObject({ wanted: '#c87137', possible: false });
    expect(orange.words).toBe(`No paint looks quite so through this water. The nearest is orange, ${orange.paint}: it will look darker and grayer.`);
    expect(orange.difference).toBeGreaterThan(5);
    expect(orange.seen).toBe(hexOf(through(lightOf(orange.paint), [0.35, 0.7, 0.68])));
  });

  it('and where it can, how to mix it', () => {
    expect(paintToRead('#204060', [0.35, 0.7, 0.68]).words).toMatch(/^Paint it (much )?(lighter|redder)( and (lighter|redder))?: [a-z -]+, #[0-9a-f]{6}\.$/);
    expect(paintToRead('#204060', [0.99, 0.99, 0.99]).words).toContain('as it is to look');
  });
});
