/** The order of things on a bench, the glass transition, and the account of heat in whole bodies. */
import { runInCup } from '../../src/core/cure/cup-run.ts';
import type { Kinetics } from '../../src/core/cure/kinetics.ts';
import { conversionAtGlass, glassC } from '../../src/core/cure/softening.ts';
import type { PourVerdict } from '../../src/core/cure/verdict-types.ts';
import type { Family, Mold } from '../../src/core/scene/scene.ts';
import { judgeBuild } from '../core/cure/judged.ts';
import { classFamily, classFormula } from '../core/cure/member-depths.ts';
import { block, cylinder, plain, run } from '../core/cure/plain-bodies.ts';
import { printed, type EvidenceRow } from './evidence-row.ts';

const BENCH = 'common practice, no source: only the order';
const GLASS = 'DiBenedetto; Pascault & Williams 1990, J. Polym. Sci. B 28:85; physics §4, recomputed there';
const BALANCE = 'first law: 0; it proves closing, not accuracy';
const ROOM_C = 23;
/** Only the order is told by a bench, no amount. */
const LESS = { expected: 'less', tolerance: 0 };
const order = (share: number): string => (share < 1 ? 'less' : `not less: ${share} times`);

const OPEN_BOX: Mold = { shape: 'box', lengthMm: 400, widthMm: 400, heightMm: 200, draftDeg: 0, cornerRadiusMm: 0, material: 'silicone', wallMm: 8, keep: false };
const tube = (diameterMm: number): Mold => ({ shape: 'round', diameterMm, heightMm: 400, draftDeg: 0, material: 'foam', wallMm: 20, keep: false });

function poured(name: Family, depthMm: number, mold = OPEN_BOX): PourVerdict {
  return judgeBuild({ mold, room: { temperatureC: ROOM_C, profile: [] }, pours: [{ fromMin: 0, depthMm, formula: classFormula(name), family: classFamily(name) }] })[0];
}

/** Rise of the one's warm end over that of the other's cool end. */
function riseShare(cooler: PourVerdict, hotter: PourVerdict): number {
  return (cooler.rangeC[1] - ROOM_C) / (hotter.rangeC[0] - ROOM_C);
}

/** A cup of the general class's middle member: its highest rise, and when it passes 35 °C. */
function cup(massG: number): { riseK: number; passesS: number } {
  const { members, meanIndex } = classFamily('general');
  let [riseK, passesS] = [0, Infinity];
  const member = members[meanIndex];
  runInCup(member, { massG, kind: 'plastic', roomC: ROOM_C, mixC: ROOM_C, rate: member.cupRate, untilS: 6 * 3600 }, (s, c) => {
    if (c > 35 && passesS === Infinity) passesS = s;
    riseK = Math.max(riseK, c - ROOM_C);
    return false;
  });
  return { riseK, passesS };
}

/** Horie's shape at the bench's usual heat: it runs away in these bodies. */
const FIERCE: Kinetics = { heatJPerKg: 400_000, activationJPerMol: 58_600, k2PerS: 1.7268246e-4, atC: 25, k1OverK2: 0.03, m: 1, n: 2, gelAlpha: 0.57735 };
const AIR = { up: 10, down: 8, aside: 9 };

export const rows: readonly EvidenceRow[] = [
  { subject: 'deep-pour against general, 10 mm each: rise of the warm end over that of the cool end', source: BENCH, ...LESS, got: () => order(riseShare(poured('deep-pour', 10), poured('general', 10))) },
  { subject: 'general against deep-pour, 10 mm each: hours to the hottest, share', source: BENCH, ...LESS, got: () => order(poured('general', 10).afterH / poured('deep-pour', 10).afterH) },
  { subject: 'wide against narrow, the same volume of deep-pour in foam: rise of the warm end over that of the cool end', source: BENCH, ...LESS, got: () => order(riseShare(poured('deep-pour', 10, tube(320)), poured('deep-pour', 160, tube(80)))) },
  { subject: 'cup of 100 g against 400 g: rise, share', source: BENCH, ...LESS, got: () => order(cup(100).riseK / cup(400).riseK) },
  { subject: 'cup of 400 g against 100 g: time to 35 °C, share', source: BENCH, ...LESS, got: () => order(cup(400).passesS / cup(100).passesS) },
  ...([[0.5, '-2.857'], [0.577, '5.892'], [0.75, '30.909'], [0.9, '61.739']] as const).map(([alpha, value]): EvidenceRow => ({ subject: `glass transition at conversion ${alpha}, from −40 to 90 °C with λ 0.4, °C`, source: GLASS, ...printed(value), got: () => glassC(alpha) })),
  { subject: 'conversion at which it turns to glass at 25 °C', source: GLASS, ...printed('0.714286'), got: () => conversionAtGlass(25) },
  { subject: 'cylinder R 40 × 40 mm in rings that runs away: unaccounted share of the heat released', source: BALANCE, expected: 0, tolerance: 1e-3, got: () => run(plain({ grid: cylinder(40, 40, [16, 16]), films: AIR, airC: 25, startC: 25, endS: 40 * 3600, law: FIERCE })).energyBalance },
  { subject: 'block of 80 × 50 × 30 mm in boxes that runs away: unaccounted share of the heat released', source: BALANCE, expected: 0, tolerance: 1e-3, got: () => run(plain({ grid: block([80, 50, 30], [16, 10, 8]), films: AIR, airC: 25, startC: 25, endS: 40 * 3600, law: FIERCE })).energyBalance },
];
