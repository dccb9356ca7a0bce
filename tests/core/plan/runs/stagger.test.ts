/** The stagger against every order and every waiting on a grid of hours (brute-bench.ts). */
import { describe, expect, it } from 'vitest';
import { planTogether } from '../../../../src/core/plan/runs/together.ts';
import { readScene } from '../../../../src/core/scene/read.ts';
import { minutesOf } from '../../../plan/check-time.ts';
import { NO_BOOLEANS } from '../../../plan/planning.ts';
import { mulberry32 } from '../../../plan/random-scenes.ts';
import { bruteBench, type BrutePour } from './brute-bench.ts';

/** Half a second each; more are asked for by the variable. */
const SEEDS = Number(process.env.STILLPOOL_BENCHES ?? 8);
const START = '2026-05-04T08:00';
/** Each pour, mm; under every formula’s greatest depth. */
const POUR_MM = 8;

interface Drawn {
  readonly hoursADay: number;
  readonly pieces: readonly (readonly BrutePour[])[];
  readonly scenes: readonly object[];
}

/** Two or three pieces of one to three pours, in one or two formulas, some painted between. All in whole hours. */
function drawn(seed: number): Drawn {
  const next = mulberry32(Math.imul(seed + 1, 0x9e3779b1));
  const whole = (low: number, high: number) => low + Math.floor(next() * (high - low + 1));
  const hoursADay = whole(3, 6);
  const formulas = Array.from({ length: whole(1, 2) }, (_none, i) => {
    const opensH = whole(2, 12);
    const scuffableH = whole(18, 26);
    return { key: `f${i}`, opensH, closesH: opensH + whole(2, 16), scuffableH, paintableH: scuffableH + whole(0, 3), demoldH: whole(24, 40) };
  });
  const pieces = Array.from({ length: seed % 4 === 3 ? 3 : 2 }, () => Array.from({ length: seed % 4 === 3 ? whole(1, seed % 8 === 7 ? 2 : 1) : whole(1, 3) }, (): BrutePour => ({ ...formulas[whole(0, formulas.length - 1)], dryH: null })));
  const planes = pieces.map((pours) => pours.slice(1).map(() => (next() < 0.4 ? whole(1, 20) : null)));
  const withPlanes = pieces.map((pours, p) => pours.map((pour, i): BrutePour => ({ ...pour, dryH: planes[p][i] ?? null })));
  const scenes = withPlanes.map((pours, p) => ({
    format: 'stillpool.scene', version: 1, name: `Piece ${p + 1}`,
    mold: { shape: 'box', lengthMm: 60, widthMm: 50, heightMm: 60 },
    fillMm: pours.length * POUR_MM,
    fills: pours.map(({ key }, i) => ({ toMm: (i + 1) * POUR_MM, formula: key, tint: { color: '#2f6f73', percent: 0 } })),
    placements: pours.flatMap(({ dryH }, i) => (dryH === null ? [] : [{ id: `p${i}`, kind: 'plane', atMm: (i + 1) * POUR_MM, paintH: 1, dryH }])),
    formulas: formulas.map(({ key, opensH, closesH, scuffableH, paintableH, demoldH }) => ({
      id: key, family: 'general', ratioByVolume: [1, 1], maxDepthMm: 12, minDepthMm: 3, maxBatchG: 400, potLifeMin: 90, atC: 23, shrinkageFraction: 0,
      bondOpensH: opensH, bondClosesH: closesH, scuffableH, paintableH, demoldH, fullCureH: 100,
    })),
    heat: { model: 'label' },
    room: { temperatureC: 23 },
    bench: { start: START, hours: [{ days: 'Mon-Sun', from: '08:00', to: `${String(8 + hoursADay).padStart(2, '0')}:00` }], pourH: 1, scuffH: 1, watchH: 0 },
  }));
  return { hoursADay, pieces: withPlanes, scenes };
}

describe('the stagger', () => {
  it.each(Array.from({ length: SEEDS }, (_none, seed) => seed))('is as good as the best of all ways, seed %i', (seed) => {
    const { hoursADay, pieces, scenes } = drawn(seed);
    const result = planTogether(scenes.map((document) => {
      const reading = readScene(document);
      if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
      return { scene: reading.scene, given: { meshes: new Map(), booleans: NO_BOOLEANS, heat: null } };
    }));
    if (!result.ok) throw new Error(JSON.stringify(result.problems));
    const hoursFrom = (time: string) => (minutesOf(time) - minutesOf(START)) / 60;
    const best = bruteBench({ hoursADay, pieces, latestH: hoursFrom(result.together.oneAfterTheOther.finish) })!;
    expect({ pours: result.together.pours, finishH: hoursFrom(result.together.finish) }).toEqual(best);
  }, 300_000);
});
