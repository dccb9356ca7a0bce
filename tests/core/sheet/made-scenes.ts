/** Scenes and plans made by hand or by a seeded generator, for what the sheet must cope with. */
import { planScene } from '../../../src/core/plan/plan-scene.ts';
import type { Finding, Plan } from '../../../src/core/plan/plan.ts';
import { readScene } from '../../../src/core/scene/read.ts';
import type { HeatJudge } from '../../../src/core/plan/heat-judge.ts';
import type { Scene } from '../../../src/core/scene/scene.ts';
import type { Polygon } from '../../../src/core/sheet/polygon.ts';
import { silhouettesOf } from '../../../src/files/sheet-document.ts';
import { madeHeat } from '../../plan/made-heat.ts';

export interface Made {
  readonly scene: Scene;
  readonly plan: Plan;
  readonly silhouettes: ReadonlyMap<string, readonly Polygon[]>;
}

const FORMULA = {
  id: 'low', name: 'Test low', family: 'low-viscosity', ratioByVolume: [2, 1], densityAGPerMl: 1.15, densityBGPerMl: 0.97, maxDepthMm: 25, minDepthMm: 2, maxBatchG: 1500,
  atC: 23, potLifeMin: 90, potLifeMassG: 100, bondOpensH: 10, bondClosesH: 26, scuffableH: 30, paintableH: 36, demoldH: 48, fullCureH: 168, viscosityMPaS: 400, refractiveIndex: 1.53, shrinkageFraction: 0,
};

/** A scene document with sensible parts, changed as asked. No boolean is needed: figures and beds keep apart. */
export function sceneDocument(change: Record<string, unknown> = {}): Record<string, unknown> {
  return {
    format: 'stillpool.scene', version: 1, name: 'Test pond',
    mold: { shape: 'box', lengthMm: 200, widthMm: 120, heightMm: 60 },
    fillMm: 55, fills: [{ toMm: 55, formula: 'low', tint: { color: '#2f6f73', percent: 0.1 } }],
    placements: [
      { id: 'p1', kind: 'plane', name: 'Lily shadows', atMm: 20 },
      { id: 'f1', kind: 'figure', name: 'Newt', shape: { type: 'ellipsoid', lengthMm: 60, widthMm: 16, heightMm: 14 }, baseMm: 20, massG: 4, hold: 'rests' },
    ],
    formulas: [FORMULA], room: { temperatureC: 23 }, heat: { model: 'label' },
    bench: { start: '2026-05-04T08:00' },
    ...change,
  };
}

export function make(document: Record<string, unknown>, more: { findings?: readonly Finding[]; heat?: HeatJudge } = {}): Made {
  const reading = readScene(document);
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  const booleans = { union: unused, intersect: unused, subtract: unused, repair: unused };
  const result = planScene(reading.scene, { meshes: new Map(), booleans, heat: more.heat ?? null });
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  const plan = { ...result.plan, findings: [...(more.findings ?? []), ...result.plan.findings] };
  return { scene: reading.scene, plan, silhouettes: silhouettesOf(reading.scene, new Map()) };
}

function unused(): never {
  throw new Error('This scene was meant to need no boolean.');
}

const LONG = 'A pond snail of most uncommon length that has climbed the reed before dawn, twice';

/** Every kind of page that text could overflow: long names, many thin pours, many figures, halts, tall, wide and leaning molds. */
export const HARD_SCENES: Readonly<Record<string, () => Made>> = {
  'a plain scene': () => make(sceneDocument()),
  'names of over 60 letters': () => make(sceneDocument({
    name: LONG.repeat(2),
    placements: [
      { id: 'p1', kind: 'plane', name: LONG, atMm: 20 },
      { id: 'p2', kind: 'plane', name: `${LONG} again`, atMm: 24 },
      { id: 'f1', kind: 'figure', name: LONG, shape: { type: 'ellipsoid', lengthMm: 60, widthMm: 16, heightMm: 14 }, baseMm: 20, massG: 4, hold: 'rests' },
      { id: 'f2', kind: 'figure', name: 'Unbrokenwordthatgoesonandonwithoutanyspaceforoverseventylettersinallofitslength', shape: { type: 'sphere', radiusMm: 6 }, xMm: 60, baseMm: 5, hold: 'rod' },
    ],
    formulas: [{ ...FORMULA, name: `${LONG} resin` }],
  })),
  'twelve pours of 4 mm': () => make(sceneDocument({
    fillMm: 48, fills: [{ toMm: 48, formula: 'low' }],
    placements: Array.from({ length: 12 }, (_, i) => ({ id: `p${i}`, kind: 'plane', name: `Ripple ${i + 1}`, atMm: 4 * (i + 1) })),
  })),
  'kits, stock and every line of a cost': () => make({
    ...sceneDocument({ formulas: [{ ...FORMULA, name: `${LONG} resin`, price: { kitMl: 750, amount: 31.5, currency: 'USD', sizes: [{ kitMl: 1500, amount: 55 }] } }] }),
    stock: [{ formula: 'low', ml: 200 }, { formula: 'low', ml: 90, bestBefore: '2026-01-01' }, { formula: 'low', partAMl: 60, partBMl: 60, opened: '2026-04-01', keepsDays: 90 }],
    labor: { perHour: 25, finishH: 6, consumables: 14, other: [{ name: LONG, amount: 20 }, { name: 'packing', amount: 6 }], lossFraction: 0.1, marginFraction: 0.35, taxFraction: 0.19 },
  }),
  'dye too little to weigh, for nine copies': () => make({ ...sceneDocument({ fills: [{ toMm: 55, formula: 'low', tint: { percent: 0.005 } }] }), copies: 9 }),
  'cups of over a kilogram, two to four of them': () => make({ ...sceneDocument({ fills: [{ toMm: 55, formula: 'low' }] }), copies: 8 }),
  'forty figures': () => make(sceneDocument({
    placements: Array.from({ length: 40 }, (_, i) => ({ id: `f${i}`, kind: 'figure', name: `Pebble number ${i}`, shape: { type: 'sphere', radiusMm: 3 }, xMm: -85 + (i % 10) * 18, yMm: -40 + Math.floor(i / 10) * 22, baseMm: 20, massG: 0.4, hold: 'rests' })),
  })),
  'a halt of every pour': () => make(sceneDocument(), { findings: [halt('The two ratios of Test low differ by 18.6 % in hardener.')] }),
  'pours that are hot, and near to it': () => make(sceneDocument({ mold: { shape: 'box', lengthMm: 200, widthMm: 120, heightMm: 60, material: 'foam' }, heat: { model: 'simulated' } }), {
    heat: madeHeat((_pour, below) => ({ share: below.length === 0 ? 0.81 : 0.05, cause: 'insulating wall', rangeC: [48.4, 121], fixes: FIXES })),
  }),
  'eight halts, some of one pour': () => make(sceneDocument(), { findings: Array.from({ length: 8 }, (_, i) => halt(`Reason ${i + 1}: ${LONG} ${LONG}.`, [2])) }),
  'a tall mold': () => make(sceneDocument({ mold: { shape: 'round', diameterMm: 90, heightMm: 400, draftDeg: 1 }, fillMm: 390, fills: [{ toMm: 390, formula: 'low' }], placements: [{ id: 'p1', kind: 'plane', name: 'Horizon', atMm: 200 }] })),
  'a long mold': () => make(sceneDocument({ mold: { shape: 'box', lengthMm: 500, widthMm: 120, heightMm: 60 } })),
  'three cups over two kilograms, dyed, over a painted floor, in a tall mold': () => make(sceneDocument({
    mold: { shape: 'box', lengthMm: 640, widthMm: 300, heightMm: 260 }, fillMm: 150, fills: [{ toMm: 150, formula: 'low', tint: { color: '#2f6f73', percent: 0.2 } }],
    placements: [{ id: 'p1', kind: 'plane', name: 'Bottom', atMm: 0 }], formulas: [{ ...FORMULA, maxBatchG: 2200 }],
  })),
  'a tiny mold of many cups': () => make(sceneDocument({ mold: { shape: 'box', lengthMm: 40, widthMm: 40, heightMm: 12 }, fillMm: 10, fills: [{ toMm: 10, formula: 'low' }], placements: [], formulas: [{ ...FORMULA, maxBatchG: 12 }], bench: { start: '2026-05-04T08:00', holdUpMl: 1, scaleG: 0.01 } })),
  'fifteen pours of 2 mm in a narrow mold, face down': () => make(sceneDocument({
    mold: { shape: 'box', lengthMm: 60, widthMm: 50, heightMm: 34 }, cast: 'face-down', fillMm: 30, fills: [{ toMm: 30, formula: 'low' }], placements: [],
    formulas: [{ ...FORMULA, maxDepthMm: 2, minDepthMm: 1 }], room: { temperatureC: 22.5 }, bench: { start: '2026-09-30T18:30' },
  })),
  'a finish of every kind': () => make(sceneDocument({ finishing: { top: 'flood-coat', sides: 'flood-coat', bottom: 'polished', base: 'wood', postCure: { temperatureC: 50, hours: 6 } } })),
  'a finish of every kind, without a first day': () => make(sceneDocument({ bench: {}, finishing: { top: 'flood-coat', sides: 'flood-coat', bottom: 'polished', base: 'wood', postCure: { temperatureC: 50, hours: 6 } } })),
  'a finish whose coat must not be poured': () => make(sceneDocument({ finishing: { top: 'flood-coat', sides: 'polished', coat: { formula: 'coat', mm: 3 } }, formulas: [FORMULA, { ...FORMULA, id: 'coat', name: 'Coat', ratioByMass: [100, 90] }] })),
  'face down, leaning walls': () => make(sceneDocument({ cast: 'face-down', mold: { shape: 'box', lengthMm: 150, widthMm: 100, heightMm: 60, draftDeg: 8, material: 'acrylic' } })),
};

const after = { safeDepthMm: 18.2, rangeC: [38, 55] as const, words: 'warm' as const };
const FIXES = [
  { kind: 'cool' as const, amount: 18, words: 'Keep the room at 18 °C until it has cooled.', after },
  { kind: 'wait' as const, amount: 24, words: 'Wait 24 h longer before it.', after },
];

function halt(message: string, pours?: readonly number[]): Finding {
  return { code: 'ratio-conflict', severity: 'halt', subject: 'formula low', message, remedy: 'Read the label again and keep one of them.', pours };
}
