/** A label's family: anchored on its depth, the same every time, narrowed by test cups and never past the label. */
import { describe, expect, it } from 'vitest';
import { cupCooling, runCup } from '../../../src/core/cure/cup-run.ts';
import { CONCERN_C, FAMILY_STACK, labelPeakAtC } from '../../../src/core/cure/family-anchor.ts';
import { draftsOf } from '../../../src/core/cure/family-priors.ts';
import { familyOf } from '../../../src/core/cure/family.ts';
import { cupVerdict } from '../../../src/core/cure/cup.ts';
import { cureRate } from '../../../src/core/cure/kinetics.ts';
import { middleMember, weightedQuantile, type CureFamily, type Member } from '../../../src/core/cure/family-types.ts';
import { labelCooling } from '../../../src/core/cure/situation.ts';
import { cupThickS } from '../../../src/core/cure/label-times.ts';
import { advance, pourOn, startStack } from '../../../src/core/cure/stack.ts';
import type { StackOptions } from '../../../src/core/cure/stack-types.ts';
import type { TestCup } from '../../../src/core/cure/test-cup.ts';
import type { Mold } from '../../../src/core/scene/scene.ts';
import { judgeBuild } from './judged.ts';
import { classFamily, classFormula } from './member-depths.ts';

const CLASSES = ['general', 'low-viscosity', 'coating', 'deep-pour', 'uv'] as const;

const BOX: Mold = { shape: 'box', lengthMm: 200, widthMm: 120, heightMm: 40, draftDeg: 0, cornerRadiusMm: 0, material: 'silicone', wallMm: 8, keep: false };

/** Readings of a cup in which a resin of one member cures, `speed` times as fast as its label's pot life. */
function cupOf(member: Member, { speed = 1, massG = 200, hours = 3, everyMin = 5 }: { speed?: number; massG?: number; hours?: number; everyMin?: number }): TestCup {
  const readings = [{ min: 0, temperatureC: 23 }];
  let [beforeMin, beforeC] = [0, 23];
  const cooling = cupCooling({ massG, kind: 'plastic', filmHWPerM2K: member.topHWPerM2K }, member.material);
  runCup({ kinetics: member.kinetics, rate: member.cupRate * speed, heatCapacityJPerKgK: member.material.heatCapacityJPerKgK, cooling, roomC: 23, mixC: 23 }, hours * 3600, (s, c) => {
    const min = s / 60;
    for (let at = readings.length * everyMin; at <= min; at += everyMin) readings.push({ min: at, temperatureC: beforeC + ((at - beforeMin) / (min - beforeMin)) * (c - beforeC) });
    [beforeMin, beforeC] = [min, c];
    return false;
  });
  return { formula: 'general', massG, cup: 'plastic', roomC: 23, readings };
}

describe('a label’s family', () => {
  it.each(CLASSES)('%s: at least 32 members, each at 60 °C at the label’s depth when solved on a grid five times as fine', (name) => {
    const formula = classFormula(name);
    const family = classFamily(name);
    expect(family.members.length).toBeGreaterThanOrEqual(32);
    expect(family.weights.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12);
    for (const member of family.members) {
      const stack = startStack({ room: [{ fromS: 0, temperatureC: formula.atC }], ...labelCooling(member) }, { ...FAMILY_STACK, leastCells: 55, temperatureToleranceK: 0.01, conversionTolerance: 1e-4 });
      pourOn(stack, { depthMm: formula.maxDepthMm, mixC: formula.atC, material: member.material, kinetics: member.kinetics, sideWPerM3K: 0 }, 0);
      advance(stack, 100 / member.kinetics.k2PerS, { until: ({ meanConversion, hottestC }) => meanConversion > 0.6 && hottestC < 35 });
      // The family's 11 cells leave up to 0.9 K, the search 0.05 K: half a percent of the depth next to the cliff.
      expect(Math.abs(stack.records[0].peakC - CONCERN_C)).toBeLessThan(1);
    }
  });

  it('keeps every value within its spread and draws evenly', () => {
    const drafts = draftsOf(32, 3).flat();
    const heats = drafts.map(({ heatJPerKg }) => heatJPerKg);
    expect(Math.min(...heats)).toBeGreaterThanOrEqual(300e3);
    expect(Math.max(...heats)).toBeLessThanOrEqual(450e3);
    // An even sequence of 96 leaves no sixth of the span empty, and its mean is in the middle within a hundredth.
    expect(heats.reduce((a, b) => a + b, 0) / heats.length).toBeCloseTo(375e3, -4);
    for (let sixth = 0; sixth < 6; sixth++) expect(heats.filter((heat) => Math.floor((heat - 300e3) / 25e3) === sixth).length).toBeGreaterThan(8);
  });

  it('is the same every time, and plain data that a worker can hand over', () => {
    const again = familyOf(classFormula('general'));
    expect(again).toEqual(classFamily('general'));
    expect(structuredClone(again)).toEqual(again);
  });

  it('says by what factor a label contradicts itself', () => {
    const { contradictions } = familyOf({ ...classFormula('general'), potLifeMin: 400, demoldH: 36 });
    const pot = contradictions.find(({ field }) => field === 'potLifeMin')!;
    // Ten times the class's pot life, that its depth bears out within a factor of two.
    expect(pot.factor).toBeLessThan(0.35);
    expect(pot.words).toMatch(/says a pot life of 400\u00a0min/);
    expect(familyOf(classFormula('uv')).contradictions).toEqual([]);
  });

  it('goes by the pot life in the label’s own cup', () => {
    const formula = classFormula('general');
    for (const member of classFamily('general').members) expect(cupThickS(member, formula, member.cupRate) / 60).toBeCloseTo(formula.potLifeMin, 1);
  });

  it.each(['coating', 'deep-pour'] as const)('%s: what the grid is off by drops out of the ratio between two situations', (name) => {
    const { maxDepthMm } = classFormula(name);
    const { members } = classFamily(name);
    const depthOn = (member: Member, roomC: number, fine: StackOptions) => {
      let [low, high] = [0.4, 1.2];
      while (high - low > 5e-4) {
        const share = (low + high) / 2;
        const stack = startStack({ room: [{ fromS: 0, temperatureC: roomC }], ...labelCooling(member) }, fine);
        pourOn(stack, { depthMm: share * maxDepthMm, mixC: roomC, material: member.material, kinetics: member.kinetics, sideWPerM3K: 0 }, 0);
        const stop = advance(stack, 100 / member.kinetics.k2PerS, { until: ({ hottestC, meanConversion }) => hottestC > CONCERN_C || meanConversion > 0.7 });
        if (stop === 'stopped' && stack.records[0].peakC > CONCERN_C) high = share;
        else low = share;
      }
      return low;
    };
    const fine = { ...FAMILY_STACK, leastCells: 55, temperatureToleranceK: 0.01, conversionTolerance: 1e-4 };
    for (const member of [members[0], members[11], members[22]]) {
      const [coarse, exact] = [FAMILY_STACK, fine].map((stack) => depthOn(member, 33, stack) / depthOn(member, 23, stack));
      // Half a percent, a tenth of what the family itself differs by.
      expect(Math.abs(coarse / exact - 1)).toBeLessThan(0.005);
    }
  });
});

describe('a test cup', () => {
  const formula = classFormula('general');
  const plain = classFamily('general');

  it('narrows the family toward the member it was read from', () => {
    const truth = [...plain.members].sort((a, b) => a.kinetics.k1OverK2 - b.kinetics.k1OverK2)[2];
    const told = familyOf(formula, [cupOf(truth, {})]);
    expect(told.narrowedBy).not.toBeNull();
    expect(told.narrowedBy!.leftFraction).toBeLessThan(0.8);
    const peakOf = (member: Member) => labelPeakAtC(member, formula, { share: 0.75, hastenedBy: 1 });
    const off = ({ members, weights }: typeof told) => members.reduce((sum, member, i) => sum + weights[i] * Math.abs(Math.log(member.kinetics.k1OverK2 / truth.kinetics.k1OverK2)), 0);
    expect(off(told)).toBeLessThan(0.8 * off(plain));
    const { beforeC, afterC } = told.narrowedBy!;
    expect(afterC[1] - afterC[0]).toBeLessThan(beforeC[1] - beforeC[0]);
    expect(peakOf(truth)).toBeGreaterThan(afterC[0] - 1);
    expect(peakOf(truth)).toBeLessThan(afterC[1] + 1);
    expect(told.hastenedBy).toBe(1);
  });

  it('that ran faster than its label makes the family faster, and says so', () => {
    const told = familyOf(formula, [cupOf(plain.members[plain.meanIndex], { speed: 2.2 })]);
    expect(told.hastenedBy).toBeGreaterThan(1.5);
    expect(told.contradictions.some(({ field, words }) => field === 'testCup' && /faster/.test(words))).toBe(true);
  });

  // A runaway as a thermometer may see it: 165 °C after 42 min, then down again. Made up; only its order counts.
  const RUNAWAY = [[0, 23], [10, 26], [20, 33], [30, 55], [35, 95], [38, 150], [42, 165], [50, 150], [60, 130], [90, 80], [120, 55]] as const;
  const FIERCE = [[0, 23], [10, 30], [20, 60], [30, 130]] as const;
  const MILD = [[0, 23], [60, 24], [120, 26], [180, 28], [240, 30], [300, 31]] as const;
  const slow = classFormula('low-viscosity');
  const read = (points: readonly (readonly [number, number])[], faster = 1): TestCup => ({ formula: slow.id, massG: 100, cup: 'plastic', roomC: 23, readings: points.map(([min, temperatureC]) => ({ min: min / faster, temperatureC })) });

  it('that is faster is never looser', () => {
    const hastes = [0.5, 0.8, 1, 1.4, 2, 3, 3.4, 5].map((faster) => familyOf(slow, [read(RUNAWAY, faster)]).hastenedBy);
    for (let i = 1; i < hastes.length; i++) expect(hastes[i]).toBeGreaterThan(hastes[i - 1]);
    // In so small a share of the pot life nothing is lost to the air: there twice as soon is twice as fast, within a tenth.
    expect(hastes[7] / hastes[4]).toBeGreaterThan(0.9 * 2.5);
  });

  it('that is dangerous is outvoted by no mild one, in any order', () => {
    const alone = familyOf(slow, [read(FIERCE)]);
    expect(alone.hastenedBy).toBeGreaterThan(3);
    for (const cups of [[FIERCE, MILD], [MILD, FIERCE], [FIERCE, FIERCE, MILD], [MILD, MILD, FIERCE, MILD]]) {
      const told = familyOf(slow, cups.map((points) => read(points)));
      expect(told.hastenedBy).toBe(alone.hastenedBy);
      expect([told.members, told.weights]).toEqual([alone.members, alone.weights]);
      expect(told.hotCups[0]).toEqual(alone.hotCups[0]);
    }
    // Also where none is faster than its label: the one with the hotter end counts.
    const [a, b] = [plain.members[2], plain.members[20]].map((member) => cupOf(member, {}));
    const hotEnds = [[a], [b], [a, b], [b, a]].map((cups) => familyOf(formula, cups).narrowedBy!.afterC[1]);
    expect(hotEnds.slice(2)).toEqual([Math.max(hotEnds[0], hotEnds[1]), Math.max(hotEnds[0], hotEnds[1])]);
  });

  it('of a logger that saw it run away is fast, however many readings lie around', () => {
    const points = Array.from({ length: 240 }, (_, i): [number, number] => [i / 2, 23 + 142 * Math.max(0, 1 - Math.abs(i / 2 - 45) / 15)]);
    expect(familyOf(slow, [read(points)]).hastenedBy).toBeGreaterThan(2);
  });

  it('that passed 50 °C in its label’s minutes forbids cups as large, whatever it fits', () => {
    // 84 usable minutes (0.7 × 120, by hand); 50 °C is passed at 20 + 10 × 17/22 = 27.73 min, three times as late.
    const told = familyOf(slow, [read(RUNAWAY, 1 / 3)]);
    expect(told.hastenedBy).toBe(1);
    expect(told.hotCups).toEqual([{ massG: 100, afterMin: expect.closeTo(83.18, 2) as number }]);
    const cup = (batchG: number) => cupVerdict(slow, told, { batchG, roomC: 20, usableMin: 60 });
    expect([cup(60).hot, cup(100).hot, cup(400).hot]).toEqual([false, true, true]);
    expect(familyOf(slow, [read(MILD)]).hotCups).toEqual([]);
  });

  it('that is faster closes the bond sooner, at least by as much', () => {
    const closesH = (family: CureFamily) => judgeBuild({ mold: BOX, room: { temperatureC: 23, profile: [] }, pours: [{ fromMin: 0, depthMm: 5, formula: slow, family }] })[0].windows.closesMin! / 60;
    const [label, fast] = [closesH(familyOf(slow)), closesH(familyOf(slow, [read(FIERCE)]))];
    const { hastenedBy } = familyOf(slow, [read(FIERCE)]);
    expect(label).toBeGreaterThan(slow.bondClosesH - 1);
    expect(fast).toBeLessThanOrEqual(label / hastenedBy);
  });

  it('that is faster makes the member that is looked at in three dimensions as fast, at any conversion and warmth', () => {
    const told = familyOf(slow, [read(FIERCE)]);
    const [plainOne, fast] = [told.members[told.meanIndex].kinetics, middleMember(told).kinetics];
    for (const [alpha, c] of [[0, 23], [0.3, 60], [0.8, 40]]) expect(cureRate(fast, alpha, c) / cureRate(plainOne, alpha, c)).toBeCloseTo(told.hastenedBy, 9);
  });

  it('that ran slower loosens nothing', () => {
    const told = familyOf(formula, [cupOf(plain.members[plain.meanIndex], { speed: 0.4, hours: 8 })]);
    expect(told.hastenedBy).toBe(1);
    expect(told.contradictions.some(({ field, words }) => field === 'testCup' && /slower/.test(words))).toBe(true);
  });

  it('whose readings no resin could give says so', () => {
    const readings = Array.from({ length: 12 }, (_, i) => ({ min: 10 * i, temperatureC: i % 2 ? 90 : 24 }));
    const told = familyOf(formula, [{ formula: 'general', massG: 200, cup: 'plastic', roomC: 23, readings }]);
    expect(told.contradictions.some(({ field, words }) => field === 'testCup' && /fit no resin/.test(words))).toBe(true);
  });

  it('of another formula changes nothing', () => {
    const other = { ...cupOf(plain.members[0], {}), formula: 'someone else’s' };
    expect(familyOf(formula, [other])).toEqual(plain);
  });
});

it('finds weighted quantiles by hand-made cases', () => {
  expect(weightedQuantile([3, 1, 2], [1 / 3, 1 / 3, 1 / 3], 0.5)).toBe(2);
  expect(weightedQuantile([10, 20], [0.04, 0.96], 0.05)).toBe(20);
  expect(weightedQuantile([10, 20], [0.05, 0.95], 0.05)).toBe(10);
});
