/** Reading through resin: colors by their standards, what water leaves, bent rays, stretched creatures, shadows. */
import type { EyePoint } from '../../src/core/scene/scene.ts';
import { colorDifference } from '../../src/core/sight/color-difference.ts';
import { decoded, encoded, labOf, lightOf } from '../../src/core/sight/color.ts';
import { lightLeft } from '../../src/core/sight/dye.ts';
import { paintedAt, paraxialScale, stretched } from '../../src/core/sight/eye.ts';
import { paintFor, through } from '../../src/core/sight/paint.ts';
import { regionArea } from '../../src/core/sight/region.ts';
import { shadowShift, solidShadow, type LitScene } from '../../src/core/sight/shadow.ts';
import { seenDepthMm, stepsBetween, type Stratum } from '../../src/core/sight/water.ts';
import { sliceable } from '../../src/core/solid/section.ts';
import { printed, type EvidenceRow } from './evidence-row.ts';
import { boxMold, sphere, turned } from './made.ts';
import { SHARMA_PAIRS } from './sharma-pairs.ts';

const resin = (index: number, toMm = 40): Stratum[] => [{ fromMm: 0, toMm, index, tint: null }];
const CASE_11 = 'cases.md 11, apparent depth d/n';
const seen = (fromMm: number, toMm: number): number => seenDepthMm(stepsBetween(resin(1.55), fromMm, toMm));
const eye = (more: Partial<EyePoint>): EyePoint => ({ eyeMm: 100, eyeXMm: 0, eyeYMm: 0, stretch: false, ...more });
const lit: LitScene = { cast: 'face-up', fillMm: 40, mold: boxMold(200, 120, 50), strata: resin(1.55), lamp: { fromDeg: 180, aboveDeg: 45 } };
/** Four layers of 10 mm of gray dye. */
const dyed = (percent: number) => lightLeft(stepsBetween([{ fromMm: 0, toMm: 40, index: 1.55, tint: { color: '#ffffff', percent, swatch: { percent: 0.1, mm: 10, passes: 0.9 } } }], 0, 40), () => 1);
const teal = [0.35, 0.7, 0.68] as const;

export const rows: readonly EvidenceRow[] = [
  ...SHARMA_PAIRS.map(([L1, a1, b1, L2, a2, b2, expected], i): EvidenceRow => ({ subject: `color difference CIEDE2000, pair ${i + 1}`, source: 'Sharma, Wu & Dalal 2005, table 1', expected, tolerance: 1e-4, got: () => colorDifference([L1, a1, b1], [L2, a2, b2]) })),
  { subject: 'sRGB: 0.5 of light as written', source: 'IEC 61966-2-1', ...printed('0.735357'), got: () => encoded(0.5) },
  { subject: 'sRGB: 0.001 of light as written', source: 'IEC 61966-2-1', ...printed('0.01292'), got: () => encoded(0.001) },
  { subject: 'sRGB: 0.5 written as light', source: 'IEC 61966-2-1', ...printed('0.214041'), got: () => decoded(0.5) },
  { subject: 'L* of #808080', source: 'CIE 15: 116 ∛Y − 16, Y of IEC 61966-2-1, by hand', ...printed('53.585'), got: () => labOf(lightOf('#808080'))[0] },
  { subject: 'gray dye, 0.10 % through 10 mm', source: 'cases.md 12, Beer–Lambert', expected: 0.9 ** 4, tolerance: 1e-9, got: () => dyed(0.1)[1] },
  { subject: 'gray dye, 0.164 % through four layers of 10 mm', source: 'cases.md 12: half of the light', expected: 0.5, tolerance: 0.0025, got: () => dyed(0.164)[0] },
  { subject: 'paint for #204060 under teal water, red light seen through it', source: 'paint × what water leaves = wanted, IEC 61966-2-1: (0x20/255) as light, by hand', ...printed('0.014444'), got: () => through(paintFor(lightOf('#204060'), teal).light, teal)[0] },
  { subject: 'fish 16 mm deep in n 1.55 looks, mm', source: CASE_11, ...printed('10.3'), got: () => seen(24, 40) },
  { subject: 'floor 40 mm deep in n 1.55 looks, mm', source: CASE_11, ...printed('25.8'), got: () => seen(0, 40) },
  { subject: 'a gap of 24 mm in n 1.55 looks, mm', source: CASE_11, ...printed('15.5'), got: () => seen(0, 24) },
  { subject: 'a creature to look 24 mm tall in n 1.55 is built, mm', source: CASE_11, ...printed('37.2'), got: () => stretched(sliceable({ shape: sphere(12), turnDeg: [0, 0, 0], scale: 1 }).placed({ xMm: 0, yMm: 0, baseMm: 1 }), resin(1.55, 60)).bounds.max[2] - 1 },
  { subject: 'shadow on a floor 24 mm under paint, lamp at 45°, n 1.55: aside, mm', source: 'cases.md 11, Snell’s law', ...printed('12.3'), got: () => shadowShift(lit, 24, 0)[0] },
  { subject: 'area of a ball’s shadow, r 10, lamp at 45°, n 1.55, mm²', source: 'ellipse π r² / cos θ′, by hand; facets and outline stray 0.04 mm along 63 mm', expected: 353.0362, tolerance: 0.04 * 63, got: () => regionArea(solidShadow(lit, turned(sphere(10)).mesh(), 0)) },
  { subject: 'paint 20 mm deep in n 1.55 for an eye 100 mm up, seen at 45°: out from under it, mm', source: '100 + 20 tan θ′, sin θ′ = sin 45° / 1.55, by hand', ...printed('110.2530'), got: () => paintedAt(100, 0, eye({}), stepsBetween(resin(1.55), 20, 40))[0] },
  { subject: 'an outline 16 mm deep in n 1.55 for an eye 300 mm up, of its size', source: '(h + d/n)/(h + d), by hand', ...printed('0.982033'), got: () => paraxialScale({ cast: 'face-up', fillMm: 40 }, eye({ eyeMm: 300 }), { strata: resin(1.55), atMm: 24 }) },
];
