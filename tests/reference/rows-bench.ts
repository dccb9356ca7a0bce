/** The bench's arithmetic one rule at a time: equivalent time, mixing, floating. The nine cases are in rows-cases. */
import { momentAfter } from '../../src/core/cure/equivalent-time.ts';
import { floatingOf } from '../../src/core/plan/floating.ts';
import { scaleStops, usableMinutes } from '../../src/core/plan/mix.ts';
import { completeFormula, mixOf } from '../../src/core/resin/formula.ts';
import { readScene } from '../../src/core/scene/read.ts';
import type { Room, Scene, Shape } from '../../src/core/scene/scene.ts';
import { planOf, scene, TG, TL } from '../plan/planning.ts';
import { printed, within, type EvidenceRow } from './evidence-row.ts';
import { profileOf } from './made.ts';

const DOUBLING = 'rate doubles per 10 °C (common practice, no source; physics §4)';
const BUOYANCY = 'Archimedes; physics-tables §10';
/** Share. Closed forms in doubles. */
const ROUNDING = 1e-12;

const room = (temperatureC: number, ...profile: [fromH: number, temperatureC: number][]): Room => ({ temperatureC, profile: profile.map(([fromH, c]) => ({ fromMin: fromH * 60, temperatureC: c })) });
const table9 = completeFormula({ id: 'x', ratioByMass: [100, 12.84], densityAGPerMl: 1.16, densityBGPerMl: 0.98, maxDepthMm: 10 });
const liquid = { ...TL, densityAGPerMl: 1.1, densityBGPerMl: 1.1 };

/** A figure resting at 20 mm in 1.10 g/mL to 200 mm. */
function floating(shape: Shape, massG: number) {
  const reading = readScene(scene({ mold: { heightMm: 210 }, fillMm: 200, formulas: [liquid], placements: [{ id: 'f', kind: 'figure', hold: 'rests', baseMm: 0, massG, shape }] }));
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  const [placement] = (reading.scene as Scene).placements;
  if (placement.kind === 'plane') throw new Error('a figure was asked for');
  return floatingOf(reading.scene, { ...placement, hold: 'rests' }, profileOf(shape));
}

export const rows: readonly EvidenceRow[] = [
  { subject: '10 label hours at 23 °C in a room of 33 °C, minutes', source: `half the time; ${DOUBLING}`, ...within(ROUNDING, 300), got: () => momentAfter(room(33), 0, 10, 23) },
  { subject: '10 label hours over 6 h at 13 °C and then 23 °C, minutes', source: `6 h do 3 h, 7 h are left: 13 h, by hand; ${DOUBLING}`, ...within(ROUNDING, 780), got: () => momentAfter(room(23, [0, 13], [6, 23]), 0, 10, 23) },
  { subject: '10 label hours over three steps, 33, 23 and 13 °C of 2 h each and on, minutes', source: `4 + 2 + 1 h of progress in 6 h, then 3 h at half speed: 12 h, by hand; ${DOUBLING}`, ...within(ROUNDING, 720), got: () => momentAfter(room(33, [2, 23], [4, 13]), 0, 10, 23) },

  { subject: 'mixed density of 100 g at 1.16 and 12.84 g at 0.98, g/mL', source: '(mA + mB)/(mA/ρA + mB/ρB), physics-tables §9', ...printed('1.13625'), got: () => mixOf(table9).densityGPerMl },
  { subject: 'part B by mass of 2:1 by volume, per 100 of part A', source: '100 × 0.97/(2 × 1.15), cases.md TL', ...printed('42.17'), got: () => 100 * mixOf(completeFormula(TL as never)).bPerAByMass },
  { subject: 'volume to mix for 100 mL net that shrinks by 2.8844 %, no allowance or hold-up, mL', source: '1 − ρ_mix/ρ_cured = 2.8844 %, physics-tables §9: 100 × 1.170/1.13625', ...within(1e-5, 102.9703), got: () => planOf(scene({ mold: { lengthMm: 100, widthMm: 100 }, fillMm: 10, formulas: [{ ...TL, shrinkageFraction: 0.028844 }], bench: { holdUpMl: 0, allowanceFraction: 0 } })).pours[0].mixMl },
  { subject: 'second stop of a scale of 0.5 g for 101.3 g of part A at 100:42.17, g', source: '101.5 × 1.4217 = 144.30 → 144.5, by hand (design §3)', expected: 144.5, tolerance: 0, got: () => scaleStops(101.3, 0.4217, 0.5)[1] },
  { subject: 'usable minutes of 293.6 g of TG at 23 °C', source: '0.7 × 40 × (100/293.6)^⅓ = 19.6, cases.md 10 (common practice, no source)', ...printed('19.6'), got: () => usableMinutes(completeFormula(TG as never), 293.6, 23) },
  { subject: 'usable minutes of 100 g of TG at 33 °C', source: `0.7 × 40/2, by hand; ${DOUBLING}`, ...within(ROUNDING, 14), got: () => usableMinutes(completeFormula(TG as never), 100, 33) },

  { subject: 'lift of 10 mL of pine at 0.35 g/mL in 1.10, g', source: `10 × (1.10 − 0.35) = 7.5, ${BUOYANCY}`, ...within(ROUNDING, 7.5), got: () => floating({ type: 'box', lengthMm: 20, widthMm: 25, heightMm: 20 }, 3.5).liftG! },
  { subject: 'ball r 20 half as dense as the liquid: depth at which it rises, mm', source: `half under: its radius, ${BUOYANCY}`, ...within(1e-9, 20), got: () => floating({ type: 'sphere', radiusMm: 20 }, 18.43067690106).safeLockMm! / 0.8 },
  { subject: 'cone r 30, 40 high, 7/8 as dense as the liquid, base down: depth at which it rises, mm', source: `the dry tip is an eighth of it: half its height, ${BUOYANCY}`, ...within(1e-9, 20), got: () => floating({ type: 'cone', radiusMm: 30, heightMm: 40 }, 36.28539514896).safeLockMm! / 0.8 },
];
