/** Acceptance cases 1–9 of cases.md by their key numbers, through the whole planner. */
import { ratioConflict, completeFormula } from '../../src/core/resin/formula.ts';
import type { Plan, Pour } from '../../src/core/plan/plan.ts';
import { ML_PER_FLUID_OUNCE } from '../../src/core/units/quantity.ts';
import { planOf, scene, TL, type SceneParts } from '../plan/planning.ts';
import { printed, type EvidenceRow } from './evidence-row.ts';

/** The acceptance tolerance, ±0.5 %, where the last printed digit does not say it closer. */
const SHARE = 0.005;
const MINUTE = 1;
const MINUTES_PER_DAY = 1440;
const MINUTES_PER_HOUR = 60;

const source = (number: number): string => `cases.md ${number}, hand arithmetic`;
const near = (number: number, what: string, text: string, got: () => number): EvidenceRow => {
  const { expected, tolerance } = printed(text);
  return { subject: `case ${number}: ${what}`, source: source(number), expected, tolerance: Math.min(SHARE * expected, tolerance), got };
};
const exact = (number: number, what: string, expected: number | string, got: () => number | string): EvidenceRow => ({ subject: `case ${number}: ${what}`, source: source(number), expected, tolerance: 0, got });
const clock = (number: number, what: string, expected: number, got: () => number): EvidenceRow => ({ subject: `case ${number}: ${what}, minutes`, source: source(number), expected, tolerance: MINUTE, got });

/** Minutes between two plan times by the engine's calendar. */
const between = (from: string, to: string): number => (Date.parse(`${to}:00Z`) - Date.parse(`${from}:00Z`)) / 60_000;
const first = (parts: SceneParts): Pour => planOf(scene(parts)).pours[0];
const severity = (plan: Plan, code: string): string => plan.findings.find((finding) => finding.code === code)?.severity ?? 'nothing';
const spans = (plan: Plan): string => plan.pours.map(({ fromMm, toMm }) => `${fromMm}→${toMm}`).join(' ');

const box1 = (): Pour => first({ fillMm: 6 });
/** A box whose pour has 12 g of hardener. */
const twelveGrams = (scaleG: number): Plan =>
  planOf(scene({ fillMm: 6, mold: { lengthMm: (((12 * (100 + 42.17)) / 42.17 / 1.09 - 8) / 1.05 / (120 * 6)) * 1000 }, bench: { scaleG } }));
const inches = (): Pour => first({ mold: { shape: 'round', diameterMm: 152.4, heightMm: 25 }, fillMm: 9.525, fills: [{ toMm: 9.525, formula: 'TG' }], bench: { holdUpMl: 6 } });
/** 42 mL on 20 mm: a block of 60 × 50 × 14. */
const figure = (): Pour => planOf(scene({
  mold: { lengthMm: 150, widthMm: 150 }, fillMm: 35, fills: [{ toMm: 20, formula: 'TL' }, { toMm: 35, formula: 'TL' }],
  placements: [{ id: 'f', kind: 'figure', hold: 'rod', baseMm: 20, massG: 60, shape: { type: 'box', lengthMm: 60, widthMm: 50, heightMm: 14 } }],
})).pours[1];
const slope = (): Plan => planOf(scene({ fillMm: 30, fills: [{ toMm: 15, formula: 'TL' }, { toMm: 30, formula: 'TL' }], placements: [{ id: 'b', kind: 'bed', shape: { type: 'wedge', lengthMm: 200, widthMm: 120, heightMm: 30 } }] }));
const gravel = (): Plan => planOf(scene({ fillMm: 10, placements: [{ id: 'b', kind: 'bed', voidFraction: 0.4, shape: { type: 'box', lengthMm: 200, widthMm: 120, heightMm: 10 } }] }));
const general = (fillMm: number, temperatureC: number): Plan => planOf(scene({ fillMm, fills: [{ toMm: fillMm, formula: 'TG' }], room: { temperatureC } }));
const floater = (fills: object[]): Plan => planOf(scene({
  fillMm: 40, fills, formulas: [{ ...TL, densityAGPerMl: 1.1, densityBGPerMl: 1.1 }],
  placements: [{ id: 'f', kind: 'figure', baseMm: 20, massG: 5.4, hold: 'rests', shape: { type: 'box', lengthMm: 20, widthMm: 20, heightMm: 20 } }],
}));
const plain = (): Plan => floater([{ toMm: 40, formula: 'TL' }]);
const night = (room: object): Pour => first({ fillMm: 6, room, bench: { start: '2026-05-04T19:30', watchH: 0 } });
const cold = (): Pour => night({ temperatureC: 23, profile: [{ from: '2026-05-04T19:00', temperatureC: 18 }, { from: '2026-05-05T08:00', temperatureC: 23 }] });
const planes = (dryH: number, watchH = 0): readonly Pour[] =>
  planOf(scene({ fillMm: 44, placements: [8, 14, 20, 26, 32, 38].map((atMm, i) => ({ id: `p${i}`, kind: 'plane', atMm, paintH: 3, dryH })), bench: { start: '2026-05-04T19:30', watchH } })).pours;
const everyPlane = (pours: readonly Pour[]): string => pours.slice(2).map((pour, i) => between(pours[i + 1].starts, pour.starts) / MINUTES_PER_HOUR).join(' ');
const saving = (watchH: number): number => between(planes(8, watchH)[6].starts, planes(12, watchH)[6].starts) / MINUTES_PER_DAY;

export const rows: readonly EvidenceRow[] = [
  near(1, 'net of 200 × 120 × 6 mm, mL', '144', () => box1().netMl),
  near(1, 'mix with 5 % and 8 mL of hold-up, mL', '159.2', () => box1().mixMl),
  near(1, 'the same in US fluid ounces', '5.38', () => box1().mixMl / ML_PER_FLUID_OUNCE),
  near(1, 'part A, g', '122.05', () => box1().partA.g),
  near(1, 'part B, g', '51.47', () => box1().partB.g),
  exact(1, 'readings of a scale of 0.1 g', '122.1 173.6', () => box1().batches[0].scaleStopsG.join(' ')),

  near(2, '2:1 by mass where the label meant volume: hardener too much, %', '18.6', () => 100 * ratioConflict(completeFormula({ ...TL, ratioByMass: [2, 1] } as never))!),
  near(2, 'both ratios given: the one by mass is mixed, part B per 100 of part A, g', '50', () => {
    const { partA, partB } = first({ fillMm: 6, formulas: [{ ...TL, ratioByMass: [2, 1] }] });
    return (100 * partB.g) / partA.g;
  }),
  exact(2, 'severity of that conflict', 'halt', () => severity(planOf(scene({ fillMm: 6, formulas: [{ ...TL, ratioByMass: [2, 1] }] })), 'ratio-conflict')),
  exact(2, '2:1 by mass alone', 'caution', () => severity(planOf(scene({ fillMm: 6, formulas: [{ ...TL, ratioByVolume: undefined, ratioByMass: [2, 1] }] })), 'ratio-unconfirmed')),
  exact(2, '12 g of hardener on scales of 1 and 0.1 g', 'halt nothing', () => [1, 0.1].map((scaleG) => severity(twelveGrams(scaleG), 'scale-coarse')).join(' ')),

  near(3, 'net of a round of 6 in, 3/8 in deep, mL', '173.75', () => inches().netMl),
  near(3, 'mix, US fl oz', '6.37', () => inches().mixMl / ML_PER_FLUID_OUNCE),
  near(3, 'part B of 1:1 by volume, g', '94.2', () => inches().partB.g),

  near(4, 'net beside a figure of 42 mL, mL', '295.5', () => figure().netMl),
  near(4, 'rise of the level if it were forgotten, mm', '1.87', () => (figure().displacedMl * 1000) / (150 * 150)),

  near(5, 'net over a slope to its middle, mL', '90', () => slope().layers[0].netMl),
  near(5, 'what 10 mm of gravel with 40 % voids drink, mL', '96', () => gravel().layers[0].netMl),

  exact(6, '30 mm of TG', '0→10 10→20 20→30', () => spans(general(30, 23))),
  exact(6, '30 mm of TG at 18 °C: the limit stays', '0→10 10→20 20→30', () => spans(general(30, 18))),
  near(6, 'times at 18 °C over times at 23 °C', '1.41', () => between(general(12, 18).pours[0].ends, general(12, 18).pours[0].paintable) / between(general(12, 23).pours[0].ends, general(12, 23).pours[0].paintable)),
  exact(6, 'layers of TL of 4 and of 2.9 mm', 'caution halt', () => [4, 2.9].map((fillMm) => severity(planOf(scene({ fillMm })), 'layer-too-thin')).join(' ')),

  near(7, 'lift of 8.0 mL, 5.4 g in 1.10 g/mL, g', '3.40', () => plain().placements[0].liftG!),
  near(7, 'depth at which it rises, mm', '12.27', () => plain().placements[0].safeLockMm! / 0.8),
  near(7, 'safe locking depth, mm', '9.82', () => plain().placements[0].safeLockMm!),
  near(7, 'steel that would hold it, g', '3.95', () => plain().placements[0].steelG!),
  exact(7, 'pours to a top at 40 mm', '0→20 20→29.5 29.5→40', () => spans(plain())),
  exact(7, 'pours with the next stop at 30 mm', '0→20 20→25 25→30 30→40', () => spans(floater([{ toMm: 30, formula: 'TL' }, { toMm: 40, formula: 'TL' }]))),

  clock(8, 'window opens Tuesday 09:31, after Monday 20:00', 13 * 60 + 31, () => between('2026-05-04T20:00', cold().opens)),
  clock(8, 'window closes Wednesday 01:09, after Monday 20:00', 29 * 60 + 9, () => between('2026-05-04T20:00', cold().closes)),
  clock(8, 'at 23 °C it closes Tuesday 21:30, after Monday 20:00', 25 * 60 + 30, () => between('2026-05-04T20:00', night({ temperatureC: 23 }).closes)),

  clock(9, 'pour over the first plane Thursday 08:00, after Monday 20:00', 60 * 60, () => between(planes(12)[0].ends, planes(12)[1].starts)),
  exact(9, 'hours a plane, drying 12 h', '72 72 72 72 72', () => everyPlane(planes(12))),
  exact(9, 'hours a plane, drying 8 h', '48 48 48 48 48', () => everyPlane(planes(8))),
  exact(9, 'start of the pour over the sixth plane, drying 12 h, days', 17.5, () => between(planes(12)[0].ends, planes(12)[6].starts) / MINUTES_PER_DAY),
  exact(9, 'end of the pour over the sixth plane, drying 8 h, days', 12, () => between(planes(8)[0].ends, planes(8)[6].ends) / MINUTES_PER_DAY),
  exact(9, 'saving by the faster paint, to the half day', 5.5, () => Math.round(2 * saving(0)) / 2),
  exact(9, 'with half an hour of watching most of the saving is gone: what is left', 'less than half', () => (saving(0.5) < saving(0) / 2 ? 'less than half' : `${saving(0.5)} of ${saving(0)} days`)),
];
