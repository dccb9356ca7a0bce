/**
 * Verdicts move the way and by the amount that the solver gives: each is held against a run of the stack itself, and
 * against the order of things on a bench (common practice, no source).
 */
import { describe, expect, it } from 'vitest';
import type { CureFamily, Member } from '../../../src/core/cure/family-types.ts';
import { coolingIn, labelCooling, type Cooling } from '../../../src/core/cure/situation.ts';
import { STACK_DEFAULTS, advance, pourOn, startStack } from '../../../src/core/cure/stack.ts';
import { beginBuild } from '../../../src/core/cure/verdict.ts';
import type { BuildPour, PourVerdict } from '../../../src/core/cure/verdict-types.ts';
import { LEAST_MOVE_MIN } from '../../../src/core/cure/windows.ts';
import type { Family, Mold, Room } from '../../../src/core/scene/scene.ts';
import { fixesFor, judgeBuild, seriesFor } from './judged.ts';
import { classFamily, classFormula, quantile } from './member-depths.ts';

/** Depth of one peak over a rate of heat known to ×/÷1.4 (a prototype): it goes with the inverse square root of the rate. */
const DEPTH_DOUBT = 1.4 ** 0.5;
const ROOM: Room = { temperatureC: 23, profile: [] };
const room = (temperatureC: number, ...profile: [fromH: number, c: number][]): Room => ({ temperatureC, profile: profile.map(([fromH, c]) => ({ fromMin: fromH * 60, temperatureC: c })) });

function box(changed: Partial<Extract<Mold, { shape: 'box' }>> = {}): Mold {
  return { shape: 'box', lengthMm: 400, widthMm: 400, heightMm: 200, draftDeg: 0, cornerRadiusMm: 0, material: 'silicone', wallMm: 8, keep: false, ...changed };
}

function tube(diameterMm: number, changed: Partial<Extract<Mold, { shape: 'round' }>> = {}): Mold {
  return { shape: 'round', diameterMm, heightMm: 400, draftDeg: 0, material: 'foam', wallMm: 20, keep: false, ...changed };
}

function pour(name: Family, depthMm: number, changed: Partial<BuildPour> = {}): BuildPour {
  return { fromMin: 0, depthMm, formula: classFormula(name), family: classFamily(name), ...changed };
}

function judged(one: BuildPour, mold: Mold = box(), where: Room = ROOM): PourVerdict {
  return judgeBuild({ mold, room: where, pours: [one] })[0];
}

/** Hottest point of a single pour by the stack itself, on its own fine grid. */
function directPeakC(member: Member, { depthMm, roomC = 23, mold = box() }: { depthMm: number; roomC?: number; mold?: Mold }): number {
  const cooling = coolingIn(mold, member);
  const stack = startStack({ room: [{ fromS: 0, temperatureC: roomC }], topHWPerM2K: cooling.topHWPerM2K, bottomHWPerM2K: cooling.bottomHWPerM2K }, { ...STACK_DEFAULTS, cellMm: depthMm / 41 });
  pourOn(stack, { depthMm, mixC: roomC, material: member.material, kinetics: member.kinetics, sideWPerM3K: cooling.sideWPerM3K }, 0);
  advance(stack, 30 / member.kinetics.k2PerS, { until: ({ meanConversion, hottestC }) => meanConversion > 0.6 && hottestC < roomC + 5 });
  return stack.records[0].peakC;
}

function withConductivity(family: CureFamily, factor: number): CureFamily {
  return { ...family, members: family.members.map((member) => ({ ...member, material: { ...member.material, conductivityWPerMK: member.material.conductivityWPerMK * factor } })) };
}

describe('against runs of the stack itself', () => {
  const { members } = classFamily('low-viscosity');

  it('the range is 5 to 95 % of the members’ hottest points, at the depths that a rate known to ×/÷1.4 stands for', () => {
    const { rangeC } = judged(pour('low-viscosity', 18));
    const lower = quantile(members.map((member) => directPeakC(member, { depthMm: 18 / DEPTH_DOUBT })), 0.05);
    const upper = quantile(members.map((member) => directPeakC(member, { depthMm: 18 * DEPTH_DOUBT })), 0.95);
    // The family's coarser grid, 0.3 K at these temperatures.
    expect(Math.abs(rangeC[0] - lower)).toBeLessThan(0.3);
    expect(Math.abs(rangeC[1] - upper)).toBeLessThan(0.3);
  });

  it('halving the conductivity makes it warmer, by what the stack gives', () => {
    const family = withConductivity(classFamily('low-viscosity'), 0.5);
    const whole = judged(pour('low-viscosity', 18));
    const halved = judged(pour('low-viscosity', 18, { family }));
    const upper = quantile(family.members.map((member) => directPeakC(member, { depthMm: 18 * DEPTH_DOUBT })), 0.95);
    expect(halved.rangeC[1]).toBeGreaterThan(whole.rangeC[1] + 2);
    expect(Math.abs(halved.rangeC[1] - upper)).toBeLessThan(0.02 * (upper - 23) + 0.3);
    expect(judged(pour('low-viscosity', 18, { family }), box({ wallMm: 9 })).safeDepthMm).toBeLessThan(25);
  });

  it('a warm layer below makes it warmer, by what the stack gives', () => {
    const pours = [pour('low-viscosity', 20), pour('low-viscosity', 20, { fromMin: 6 * 60 })];
    const [first, second] = judgeBuild({ mold: box(), room: ROOM, pours });
    const direct = members.map((member) => {
      const cooling = coolingIn(box(), member);
      const stack = startStack({ room: [{ fromS: 0, temperatureC: 23 }], topHWPerM2K: cooling.topHWPerM2K, bottomHWPerM2K: cooling.bottomHWPerM2K }, { ...STACK_DEFAULTS, cellMm: 0.5 });
      let hottestC = 23;
      const put = (depthMm: number, atS: number) => pourOn(stack, { depthMm, mixC: 23, material: member.material, kinetics: member.kinetics, sideWPerM3K: cooling.sideWPerM3K }, atS);
      put(20, 0);
      advance(stack, 6 * 3600);
      hottestC = Math.max(...stack.temperatureC);
      put(20 * DEPTH_DOUBT, 6 * 3600);
      advance(stack, 6 * 3600 + 30 / member.kinetics.k2PerS, { watch: ({ stackHottestC }) => void (hottestC = Math.max(hottestC, stackHottestC)) });
      return hottestC;
    });
    expect(second.rangeC[1]).toBeGreaterThan(first.rangeC[1] + 1);
    // 3 % of the rise: the coarser grid, twice.
    const upper = quantile(direct, 0.95);
    expect(Math.abs(second.rangeC[1] - upper)).toBeLessThan(0.03 * (upper - 23) + 0.3);
    expect(second.safeDepthMm).toBeLessThan(first.safeDepthMm);
    expect(second.cause).toBe('warm layer below');
  });

  it('the safe depth in a warm room is where the cautious member reaches 60 °C', () => {
    const { safeDepthMm, harsher, cause } = judged(pour('low-viscosity', 20), box(), room(30));
    const peaks = members.map((member) => directPeakC(member, { depthMm: safeDepthMm, roomC: 30 }));
    // All but the cautious twentieth bear it, that next to it just so: 60 °C, the 0.1 K told apart, and 2 K of the steep cliff for the grid.
    expect(Math.abs(quantile(peaks, 0.95) - 60.1)).toBeLessThan(2);
    expect([harsher, cause]).toEqual([true, 'room']);
  });

  it('the room that would be too much is where the safe depth is the pour’s', () => {
    const { tooWarmRoomC } = judged(pour('low-viscosity', 18));
    expect(judged(pour('low-viscosity', 18), box(), room(tooWarmRoomC - 0.7)).safeDepthMm).toBeGreaterThan(18);
    expect(judged(pour('low-viscosity', 18), box(), room(tooWarmRoomC + 0.7)).safeDepthMm).toBeLessThan(18);
  });
});

describe('a verdict and its own limits', () => {
  const cases: [string, BuildPour, Mold, Room][] = [
    ['a wall a little thicker than the label’s', pour('low-viscosity', 25), box({ material: 'acrylic', wallMm: 6.5, lengthMm: 200, widthMm: 120 }), ROOM],
    ['a wall thicker than that', pour('low-viscosity', 25), box({ material: 'acrylic', wallMm: 7, lengthMm: 200, widthMm: 120 }), ROOM],
    ['a cool room', pour('deep-pour', 40), box(), room(20)],
    ['a wooden wall', pour('general', 7), box({ material: 'wood', wallMm: 18 }), room(18)],
    ['a warm room', pour('general', 8), box(), room(26)],
  ];

  it.each(cases)('agree: %s', (_name, one, mold, where) => {
    const { safeDepthMm, tooWarmRoomC, harsher } = judged(one, mold, where);
    expect(one.depthMm <= safeDepthMm).toBe(tooWarmRoomC >= where.temperatureC);
    expect(harsher).toBe(safeDepthMm < one.formula.maxDepthMm);
    // By halving over whole verdicts: the room that is told is on their safe side, and by no more than half a degree.
    let [fine, over] = [0, 60];
    for (let i = 0; i < 9; i++) {
      const middle = (fine + over) / 2;
      if (judged(one, mold, room(middle)).safeDepthMm >= one.depthMm) fine = middle;
      else over = middle;
    }
    expect(tooWarmRoomC).toBeLessThan(over);
    expect(tooWarmRoomC).toBeGreaterThan(fine - 0.5);
  }, 20_000);

  it('nothing near the label’s depth is taken for it', () => {
    const in25 = (wallMm: number) => judged(pour('low-viscosity', 25), box({ material: 'acrylic', wallMm, lengthMm: 200, widthMm: 120 })).safeDepthMm;
    expect(in25(6.5)).toBeLessThan(25);
    expect(in25(7)).toBeLessThan(in25(6.5));
  });
});

describe('the order of things on a bench', () => {
  it('a deep-pour class at equal depth stays cooler and takes longer than a general one', () => {
    const [general, deep] = [judged(pour('general', 10)), judged(pour('deep-pour', 10))];
    expect(deep.rangeC[1]).toBeLessThan(general.rangeC[0]);
    expect(deep.afterH).toBeGreaterThan(3 * general.afterH);
  });

  it('a tall narrow mold runs hotter than a wide shallow one of the same volume where its walls insulate', () => {
    const tall = judged(pour('deep-pour', 160), tube(80));
    const shallow = judged(pour('deep-pour', 160 * (80 / 320) ** 2), tube(320));
    expect(tall.rangeC[0]).toBeGreaterThan(shallow.rangeC[1] + 5);
    expect(tall.cause).toBe('narrow mold');
  });

  it('a warmer room, foam under it and warm mix each ask for less, and each is named', () => {
    const plain = judged(pour('general', 10));
    expect([plain.safeDepthMm, plain.harsher]).toEqual([10, false]);
    const all: [PourVerdict, string][] = [
      [judged(pour('general', 8), box(), room(28)), 'room'],
      [judged(pour('general', 8), box({ material: 'foam', wallMm: 20 })), 'insulating wall'],
      [judged(pour('general', 8, { mixC: 40 })), 'warm bottles'],
    ];
    for (const [verdict, cause] of all) {
      expect(verdict.safeDepthMm).toBeLessThan(9.5);
      expect([verdict.harsher, verdict.cause]).toEqual([true, cause]);
    }
  });

  it('names what alone is harsher, however little, and blames no mold for a cool pour', () => {
    expect(judged(pour('low-viscosity', 25), box(), room(23.5))).toMatchObject({ harsher: true, cause: 'room' });
    expect(judged(pour('deep-pour', 30), tube(25, { material: 'silicone', wallMm: 8 }))).toMatchObject({ words: 'cool', cause: 'depth' });
    const family = { ...classFamily('general'), hastenedBy: 2 };
    expect(judged(pour('general', 8, { family }))).toMatchObject({ harsher: true, cause: 'cup' });
  });

  it('a room that warms during the cure counts, one that warms after it does not', () => {
    expect(judged(pour('low-viscosity', 22), box(), room(23, [2, 32])).safeDepthMm).toBeLessThan(20);
    expect(judged(pour('low-viscosity', 22), box(), room(23, [72, 32])).safeDepthMm).toBe(25);
  });

  it('in a cooler room or a shallower pour nothing is tightened', () => {
    const cool = judged(pour('general', 10), box(), room(20));
    expect([cool.safeDepthMm, cool.harsher]).toEqual([10, false]);
    const thin = judged(pour('general', 4));
    expect([thin.words, thin.safeDepthMm]).toEqual(['cool', 10]);
  });

  it('words go with the range', () => {
    expect(judged(pour('general', 5)).words).toBe('cool');
    expect(judged(pour('general', 8)).words).toBe('warm');
    expect(judged(pour('general', 9)).words).toBe("can't be told");
    expect(judged(pour('general', 10)).words).toBe("can't be told");
    expect(judged(pour('general', 20)).words).toBe('hot');
  });
});

describe('moments', () => {
  it('in the label’s own situation the bond lasts as the label says, at every depth it allows', () => {
    for (const depthMm of [3, 6, 10]) expect(judged(pour('general', depthMm)).windows.closesMin!, `${depthMm} mm`).toBeGreaterThan(15 * 60 - LEAST_MOVE_MIN);
  });

  it('warmth closes the bond sooner, and lets nothing be done before the surface is cool, when runs of the stack say so', () => {
    const family = classFamily('deep-pour');
    const foam = box({ material: 'foam', wallMm: 20 });
    const [{ windows }] = judgeBuild({ mold: foam, room: ROOM, pours: [pour('deep-pour', 58)] }, { members: 'mean' });
    const member = family.members[family.meanIndex];
    const surfaceRun = (cooling: Cooling, depthMm: number) => {
      const stack = startStack({ room: [{ fromS: 0, temperatureC: 23 }], topHWPerM2K: cooling.topHWPerM2K, bottomHWPerM2K: cooling.bottomHWPerM2K }, { ...STACK_DEFAULTS, longestStepS: 600 });
      pourOn(stack, { depthMm, mixC: 23, material: member.material, kinetics: member.kinetics, sideWPerM3K: cooling.sideWPerM3K }, 0);
      const seen: { timeH: number; equivalentH: number; overK: number }[] = [];
      let [equivalentH, beforeS] = [0, 0];
      advance(stack, 6 * 86_400, {
        watch: ({ timeS, surfaceC, roomC }) => {
          equivalentH += (2 ** ((surfaceC - 23) / 10) * (timeS - beforeS)) / 3600;
          seen.push({ timeH: timeS / 3600, equivalentH, overK: surfaceC - roomC });
          beforeS = timeS;
        },
      });
      return seen;
    };
    const bondH = surfaceRun(labelCooling(member), 60).find(({ timeH }) => timeH >= 54)!.equivalentH;
    const here = surfaceRun(coolingIn(foam, member), 58);
    const closesH = here.find(({ equivalentH }) => equivalentH >= bondH)!.timeH;
    expect(closesH).toBeLessThan(50);
    // The family's steps are longer: a quarter of an hour is the least that moves anything.
    expect(Math.abs(windows.closesMin! / 60 - closesH)).toBeLessThan(0.5);
    const [still] = judgeBuild({ mold: box(), room: ROOM, pours: [pour('deep-pour', 60)] }, { members: 'mean' });
    const coolH = surfaceRun(coolingIn(box(), member), 60).find(({ timeH, overK }) => timeH > 24 && overK <= 5)!.timeH;
    expect(coolH).toBeGreaterThan(24.2);
    expect(still.windows.opensMin! / 60 - coolH).toBeGreaterThan(-0.1);
    expect(still.windows.opensMin! / 60 - coolH).toBeLessThan(2);
    expect(judged(pour('deep-pour', 15)).windows.opensMin).toBeNull();
  });
});

describe('a build as it grows', () => {
  const pours = [pour('low-viscosity', 20), pour('low-viscosity', 20, { fromMin: 14 * 60 }), pour('general', 8, { fromMin: 40 * 60 })];

  it('is the same poured one by one, and a branch leaves the trunk alone', () => {
    const whole = judgeBuild({ mold: box(), room: ROOM, pours });
    const first = beginBuild(box(), ROOM).pour(pours[0]);
    first.then.pour({ ...pours[1], depthMm: 24 }).then.pour(pours[2]);
    const second = first.then.pour(pours[1]);
    expect([first.verdict, second.verdict, second.then.pour(pours[2]).verdict]).toEqual(whole);
  });

  it('the middle member alone lies within the family', () => {
    const [all] = judgeBuild({ mold: box(), room: ROOM, pours: pours.slice(0, 1) });
    const [mean] = judgeBuild({ mold: box(), room: ROOM, pours: pours.slice(0, 1) }, { members: 'mean' });
    expect(mean.rangeC[0]).toBeGreaterThanOrEqual(all.rangeC[0]);
    expect(mean.rangeC[1]).toBeLessThanOrEqual(all.rangeC[1]);
  });
});

describe('what would help', () => {
  it('says it with the numbers after it, as judging it anew gives them', () => {
    const hot = pour('low-viscosity', 24);
    const fixes = fixesFor({ mold: box(), room: room(28), pours: [hot] }, 0);
    expect(fixes.map(({ kind }) => kind)).toEqual(['split', 'cool', 'formula']);
    const [split, cool, other] = fixes;
    expect(split.after).toMatchObject({ safeDepthMm: judged({ ...hot, depthMm: 24 / (split.amount as number) }, box(), room(28)).safeDepthMm });
    expect(split.after.safeDepthMm).toBeGreaterThanOrEqual(24 / (split.amount as number));
    expect(cool.after.rangeC).toEqual(judged(hot, box(), room(cool.amount as number)).rangeC);
    expect(other.after.safeDepthMm).toBeGreaterThan(24);
  });

  it('is not said where following it would not do', () => {
    // 24 mm in a room of 28 °C: of no use where no pour may be under 20 mm, and a deep-pour resin has its own least depth.
    const { formula, family } = pour('low-viscosity', 24);
    const thick = { ...pour('low-viscosity', 24), formula: { ...formula, minDepthMm: 20 }, family };
    const kinds = (one: BuildPour, where: Room) => fixesFor({ mold: box(), room: where, pours: [one] }, 0).map(({ kind }) => kind);
    expect(kinds(thick, room(28))).toEqual(['cool', 'formula']);
    expect(kinds(pour('general', 9), room(28))).toEqual(['split', 'cool']);
    // Over the label in any room.
    expect(kinds(pour('general', 14), room(28))).toEqual(['split', 'formula']);
  });

  it('waiting helps on a layer that is still warm', () => {
    const pours = [pour('low-viscosity', 24), pour('low-viscosity', 20, { fromMin: 5 * 60 })];
    const wait = fixesFor({ mold: box(), room: ROOM, pours }, 1).find(({ kind }) => kind === 'wait');
    expect(wait).toBeDefined();
    expect(wait!.after.safeDepthMm).toBeGreaterThanOrEqual(20);
    expect(wait!.after.safeDepthMm).toBeGreaterThan(judgeBuild({ mold: box(), room: ROOM, pours })[1].safeDepthMm);
  });
});

describe('a pour’s chart', () => {
  it('is a band in order that begins at the mix and ends near the room, and a profile up to the top', () => {
    const { hours, lowC, middleC, highC, depth } = seriesFor({ mold: box(), room: ROOM, pours: [pour('general', 8), pour('general', 8, { fromMin: 20 * 60 })] }, 1);
    hours.forEach((_, i) => {
      expect(lowC[i]).toBeLessThanOrEqual(middleC[i]);
      expect(middleC[i]).toBeLessThanOrEqual(highC[i]);
    });
    expect(highC[0]).toBe(23);
    expect(highC[highC.length - 1]).toBeLessThan(26);
    expect(depth.pourFromMm).toBeCloseTo(8, 9);
    expect(Math.max(...depth.heightMm)).toBeLessThan(16);
    expect(Math.max(...depth.temperatureC)).toBeGreaterThan(26);
  });
});

it('the label’s situation loses nothing to its sides; a narrow mold does, a wide one hardly', () => {
  const [member] = classFamily('deep-pour').members;
  expect(labelCooling(member).sideWPerM3K).toBe(0);
  expect(coolingIn(box({ lengthMm: 60, widthMm: 60 }), member).sideWPerM3K).toBeGreaterThan(10 * coolingIn(box(), member).sideWPerM3K);
  expect(coolingIn(box({ lengthMm: 1000, widthMm: 1000 }), member).sideWPerM3K).toBe(0);
});
