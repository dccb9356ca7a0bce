import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { parseLocalTime } from '../../src/core/units/time.ts';
import { leftwardFigures, tintedPours } from '../../src/store/drawn.ts';
import { haltedPours, markedPours } from '../../src/store/findings.ts';
import { ledgerOf } from '../../src/store/ledger.ts';
import { waitsOf } from '../../src/store/waits.ts';
import type { DerivedScene } from '../../src/work/protocol.ts';
import { changedDemo, derivedFrom, given, ROCK_POOL } from './in-process.ts';

/** g. Readings are multiples of the scale's division in binary, so sums carry noise far below a division. */
const NOISE_G = 1e-6;
/** ms. Five scenes planned on a machine that others use too. */
const PLANNING_MS = 60_000;
const minutes = (time: string): number => parseLocalTime(time)!;

const scenes: Record<string, DerivedScene> = {};

beforeAll(async () => {
  scenes['the demo'] = await derivedFrom(null);
  scenes['the rock pool'] = await derivedFrom([given('r.scene.json', readFileSync(ROCK_POOL, 'utf8'))]);
  scenes['a thin top'] = await derivedFrom([changedDemo((scene) => void (scene.placements.find(({ id }) => id === 'p2')!.atMm = 53.5))]);
  scenes['small cups'] = await derivedFrom([changedDemo((scene) => void (scene.formulas[0].maxBatchG = 120))]);
  scenes['nights only'] = await derivedFrom([changedDemo((scene) => void (scene.bench.hours = [{ days: 'Mon-Fri', from: '22:00', to: '02:00' }]))]);
}, PLANNING_MS);

describe.each(['the demo', 'the rock pool', 'a thin top', 'small cups', 'nights only'])('%s', (name) => {
  it('waits without a gap from each pour’s end to the next pour, the last to the finish', () => {
    const { plan } = scenes[name];
    waitsOf(plan).forEach((wait, i) => {
      expect(wait.fromMin).toBe(minutes(plan.pours[i].ends));
      expect(wait.toMin).toBe(minutes(plan.pours[i + 1]?.starts ?? plan.finish));
      let at = wait.fromMin;
      for (const span of wait.spans) {
        expect(span.fromMin).toBe(at);
        expect(span.toMin).toBeGreaterThan(span.fromMin);
        at = span.toMin;
      }
      expect(at).toBe(wait.toMin);
    });
  });

  it('has no hands on a tacky surface, and scuffs every other', () => {
    const { plan, scene } = scenes[name];
    waitsOf(plan).forEach((wait, i) => {
      const next = plan.pours[i + 1];
      const scuffed = wait.spans.filter(({ kind }) => kind === 'scuff').reduce((sum, { fromMin, toMin }) => sum + toMin - fromMin, 0);
      if (next) expect(scuffed).toBe(next.route === 'wet-on-tacky' ? 0 : scene.bench.scuffH * 60);
      expect(wait.tacky !== null).toBe(next?.route === 'wet-on-tacky');
    });
  });

  it('writes columns that add up, grams as the scale shows them', () => {
    const { plan, scene } = scenes[name];
    const halted = haltedPours(plan);
    const { rows, total } = ledgerOf(plan, halted);
    expect([...rows.keys()]).toEqual(plan.pours.map(({ index }) => index).filter((index) => !halted.has(index)));
    let partAG = 0;
    for (const [index, row] of rows) {
      const pour = plan.pours[index - 1];
      const readings = pour.batches.map(({ scaleStopsG }) => scaleStopsG);
      expect(row.partAG + row.partBG!).toBeCloseTo(readings.reduce((sum, stops) => sum + stops[stops.length - 1], 0), 6);
      // Two readings of each cup are off by half a division at most, part B by both.
      expect(Math.abs(row.partAG - pour.partA.g)).toBeLessThanOrEqual((scene.bench.scaleG / 2) * readings.length + NOISE_G);
      partAG += row.partAG;
    }
    expect(Math.abs(total.partAG - partAG)).toBeLessThan(NOISE_G);
  });
});

it('gives a halted pour no amounts', () => {
  const { plan } = scenes['a thin top'];
  const halted = haltedPours(plan);
  expect([...halted]).toEqual([plan.pours.length]);
  expect(ledgerOf(plan, halted).rows.has(plan.pours.length)).toBe(false);
});

it('counts a halt about the whole plan for every pour', () => {
  const { plan } = scenes['the demo'];
  const overfull = { code: 'overfull', severity: 'halt', subject: 'mold', message: '', remedy: '' } as const;
  expect(haltedPours({ ...plan, findings: [overfull] }).size).toBe(plan.pours.length);
  expect(markedPours(plan, overfull).size).toBe(0);
});

it('marks the pour that locks a floating figure', () => {
  const { plan } = scenes['the demo'];
  const floats = plan.findings.find(({ code }) => code === 'floats')!;
  const locking = plan.pours.filter(({ locks }) => locks.includes(floats.subject)).map(({ index }) => index);
  expect(locking.length).toBeGreaterThan(0);
  expect([...markedPours(plan, { ...floats, pours: undefined })]).toEqual(locking);
});

it('tells tinted pours by their fill, and figures turned round', () => {
  const { plan, scene } = scenes['the demo'];
  const low = plan.pours.filter(({ toMm }) => toMm <= 30).map(({ index }) => index);
  expect([...tintedPours(scene, plan)]).toEqual(low);
  const turned = scene.placements.map((one) => (one.kind === 'figure' && one.id === 'f1' ? { ...one, turnDeg: [0, 0, 170] as const } : one));
  expect([...leftwardFigures({ placements: turned })]).toEqual(['f1']);
});
