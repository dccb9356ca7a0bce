/** Plans scene JSON the way the command does, without files. */
import { GOAL_SEARCH } from '../../src/core/plan/best/goal-search.ts';
import { planScene } from '../../src/core/plan/plan-scene.ts';
import type { Plan } from '../../src/core/plan/plan.ts';
import { readScene } from '../../src/core/scene/read.ts';
import type { Booleans } from '../../src/core/solid/solid.ts';
import { parseLocalTime } from '../../src/core/units/time.ts';

/** For scenes whose solids neither meet each other nor a wall: any boolean asked for fails the test. */
export const NO_BOOLEANS: Booleans = {
  union: () => unexpected('union'),
  intersect: () => unexpected('intersect'),
  subtract: () => unexpected('subtract'),
  repair: () => unexpected('repair'),
};

export function planOf(scene: object, booleans: Booleans = NO_BOOLEANS, start?: string): Plan {
  const reading = readScene(scene);
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  const result = planScene(reading.scene, { meshes: new Map(), search: GOAL_SEARCH, booleans, notes: reading.notes, heat: null, startMin: start === undefined ? undefined : parseLocalTime(start)! });
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.plan;
}

export function problemsOf(scene: unknown): string[] {
  const reading = readScene(scene);
  if (!reading.ok) return reading.problems.map(({ path, message }) => `${path}: ${message}`);
  const result = planScene(reading.scene, { meshes: new Map(), search: GOAL_SEARCH, booleans: NO_BOOLEANS, heat: null });
  return result.ok ? [] : result.problems.map(({ path, message }) => `${path}: ${message}`);
}

/** The invented formulas of cases.md. */
export const TL = {
  id: 'TL', name: 'TL', ratioByVolume: [2, 1], densityAGPerMl: 1.15, densityBGPerMl: 0.97, maxDepthMm: 25, minDepthMm: 5, maxBatchG: 1500, family: 'low-viscosity',
  bondOpensH: 10, bondClosesH: 26, scuffableH: 36, paintableH: 36, demoldH: 48, atC: 23, shrinkageFraction: 0, potLifeMin: 90, potLifeMassG: 100,
};
export const TG = {
  id: 'TG', name: 'TG', ratioByVolume: [1, 1], densityAGPerMl: 1.16, densityBGPerMl: 1.0, maxDepthMm: 12, minDepthMm: 3, maxBatchG: 400, family: 'general',
  potLifeMin: 40, potLifeMassG: 100, bondOpensH: 5, bondClosesH: 15, scuffableH: 22, paintableH: 22, demoldH: 36, atC: 23, shrinkageFraction: 0,
};

export interface SceneParts {
  mold?: object;
  fillMm?: number;
  fills?: object[];
  placements?: object[];
  formulas?: object[];
  room?: object;
  bench?: object;
}

/** A 200 × 120 × 60 mm box filled with TL to `fillMm`, unless said otherwise. */
export function scene(parts: SceneParts = {}): Record<string, unknown> {
  const fillMm = parts.fillMm ?? 55;
  return {
    format: 'stillpool.scene', version: 1, name: 'case',
    mold: { shape: 'box', lengthMm: 200, widthMm: 120, heightMm: 60, ...parts.mold },
    fillMm,
    fills: parts.fills ?? [{ toMm: fillMm, formula: 'TL' }],
    placements: parts.placements ?? [],
    formulas: parts.formulas ?? [TL, TG],
    room: parts.room ?? { temperatureC: 23 },
    bench: { start: '2026-05-04T08:00', ...parts.bench },
    heat: { model: 'label' },
  };
}

function unexpected(what: string): never {
  throw new Error(`this scene needs no ${what}`);
}
