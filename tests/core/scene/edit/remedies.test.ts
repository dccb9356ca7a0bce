/** One press mends the finding it was offered for: planned before and after, by the planner itself. */
import { describe, expect, it } from 'vitest';
import type { Finding, Plan } from '../../../../src/core/plan/plan.ts';
import type { Bounds } from '../../../../src/core/solid/solid.ts';
import type { SceneFile } from '../../../../src/core/scene/edit/file.ts';
import { likelyUnit } from '../../../../src/core/scene/edit/mesh-unit.ts';
import { remedyFor, type Remedy } from '../../../../src/core/scene/edit/remedies.ts';
import { wayInside } from '../../../../src/core/scene/edit/room-in-mold.ts';
import type { MoldFile } from '../../../../src/core/scene/edit/file.ts';
import { mulberry32 } from '../../../plan/random-scenes.ts';
import { planOf, scene, TG } from '../../../plan/planning.ts';
import { frozen } from './made-files.ts';

const NBSP = '\u00a0';
const plane = (id: string, atMm: number, more = {}) => ({ id, kind: 'plane', name: `Plane ${id}`, atMm, ...more });
const block = (id: string, baseMm: number, more = {}) => ({ id, kind: 'figure', name: `Block ${id}`, shape: { type: 'box', lengthMm: 20, widthMm: 20, heightMm: 10 }, baseMm, massG: 20, ...more });
const made = (parts: Parameters<typeof scene>[0]) => frozen(scene(parts)) as unknown as SceneFile;
const find = (plan: Plan, code: string) => plan.findings.find((finding) => finding.code === code);

function remedyOf(file: SceneFile, code: string, bounds?: ReadonlyMap<string, Bounds>): Remedy | null {
  const plan = planOf(file);
  const finding = find(plan, code);
  if (!finding) throw new Error(`no ${code} among ${plan.findings.map((each) => each.code).join(', ')}`);
  return remedyFor(finding, file, plan, bounds);
}

const TOP_THIN = made({ fillMm: 55, fills: [{ toMm: 55, formula: 'TG' }], placements: [plane('p1', 53)] });
const MIDDLE_THIN = made({ fills: [{ toMm: 55, formula: 'TG' }], placements: [plane('p1', 20), plane('p2', 21.5)] });
const TOP_THIN_FULL = made({ fillMm: 58, fills: [{ toMm: 58, formula: 'TG' }], placements: [plane('p1', 56.5)] });
const CANNOT_LOCK = made({ placements: [block('f1', 53, { massG: 0.05, shape: { type: 'box', lengthMm: 20, widthMm: 20, heightMm: 2 } })] });
const STANDS = made({ placements: [block('f1', 0, { massG: 1, hold: 'stands' })] });
const ABOVE = made({ placements: [block('f1', 47)] });
const ABOVE_TO_RIM = made({ fillMm: 58, fills: [{ toMm: 58, formula: 'TL' }], placements: [block('f1', 50)] });
const OVERFULL = made({ fillMm: 60, fills: [{ toMm: 60, formula: 'TG' }], formulas: [{ ...TG, shrinkageFraction: 0.05 }] });
const FREEBOARD = made({ fillMm: 58, fills: [{ toMm: 58, formula: 'TG' }], formulas: [{ ...TG, shrinkageFraction: 0.02 }] });
const CUTS = made({ placements: [block('f1', 20, { hold: 'fixed' }), plane('p1', 22)] });
const CUTS_ABOVE = made({ placements: [block('f1', 20, { hold: 'fixed' }), plane('p1', 28)] });
const UNCONFIRMED = made({ fills: [{ toMm: 55, formula: 'TG' }], formulas: [{ ...TG, ratioByVolume: undefined, ratioByMass: [2, 1] }] });

describe('one press', () => {
  it.each([
    ['layer-too-thin', 'of the top: fills higher', TOP_THIN, `Fill to 56${NBSP}mm`],
    ['layer-too-thin', 'between stops: moves the upper one up', MIDDLE_THIN, `Set Plane p2 to 23${NBSP}mm`],
    ['layer-too-thin', 'under a full rim: moves the stop down', TOP_THIN_FULL, `Set Plane p1 to 55${NBSP}mm`],
    ['cannot-lock', 'puts it on a rod', CANNOT_LOCK, 'Set Block f1 on a rod'],
    ['floats', 'fastens what stands', STANDS, 'Fasten Block f1 to what it stands on'],
    ['above-fill', 'fills over what rests', ABOVE, `Fill to 57${NBSP}mm`],
    ['above-fill', 'lowers it where the rim is near', ABOVE_TO_RIM, `Lower Block f1 by 2${NBSP}mm`],
    ['overfull', 'fills lower', OVERFULL, null],
    ['freeboard', 'fills lower', FREEBOARD, null],
    ['plane-cuts-figure', 'sets the plane under it', CUTS, `Set Plane p1 to 20${NBSP}mm`],
    ['plane-cuts-figure', 'sets the plane over it', CUTS_ABOVE, `Set Plane p1 to 30${NBSP}mm`],
    ['ratio-unconfirmed', 'takes it as by volume', UNCONFIRMED, 'It is 2:1 by volume'],
  ] as const)('on %s %s', (code, _what, file, words) => {
    const remedy = remedyOf(file, code)!;
    if (words !== null) expect(remedy.words).toBe(words);
    const result = remedy.apply(file);
    if (!result.ok) throw new Error(result.reason);
    const before = planOf(file);
    const after = planOf(result.file);
    const subject = find(before, code)!.subject;
    expect(after.findings.filter((finding) => finding.code === code && finding.subject === subject), 'still there').toEqual([]);
    const halts = (plan: Plan) => plan.findings.filter((finding) => finding.severity === 'halt').length;
    expect(halts(after), 'mended one halt by another').toBeLessThanOrEqual(halts(before));
  });

  it('is not offered where the person has to decide', () => {
    const none = (code: string, subject = 'bench.start') => remedyFor({ code, severity: 'note', subject, message: '', remedy: '' } as Finding, TOP_THIN, planOf(TOP_THIN));
    expect([none('start-assumed'), none('weight-unknown', 'f1'), none('ratio-conflict', 'formula TG'), none('layer-too-thin', 'layer 9'), none('plane-cuts-figure', 'p1')]).toEqual([null, null, null, null, null]);
  });
  it('leaves locked stops alone', () => {
    const locked = made({ fillMm: 58, fills: [{ toMm: 58, formula: 'TG' }], placements: [plane('p1', 56.5, { locked: true })] });
    expect(remedyOf(locked, 'layer-too-thin')).toBeNull();
  });
});

describe('into the mold', () => {
  const molds: readonly MoldFile[] = [
    { shape: 'box', lengthMm: 100, widthMm: 60, heightMm: 40 },
    { shape: 'box', lengthMm: 100, widthMm: 60, heightMm: 40, cornerRadiusMm: 25, draftDeg: 10 },
    { shape: 'round', diameterMm: 90, heightMm: 40 },
  ];
  /** Shifts are stored to a millionth; corners are compared a little outside of that, mm. */
  const STORED_MM = 1e-5;
  const insideAt = (mold: MoldFile, x: number, y: number, z: number): boolean => {
    const grow = z * Math.tan(((mold.draftDeg ?? 0) * Math.PI) / 180) + STORED_MM;
    if (mold.shape === 'round') return Math.hypot(x, y) <= mold.diameterMm / 2 + grow;
    const r = mold.cornerRadiusMm ?? 0;
    const [cx, cy] = [Math.max(0, Math.abs(x) - (mold.lengthMm / 2 + grow - r)), Math.max(0, Math.abs(y) - (mold.widthMm / 2 + grow - r))];
    return r === 0 ? cx === 0 && cy === 0 : Math.hypot(cx, cy) <= r;
  };
  it.each(molds.flatMap((mold, i) => [1, 2, 3].map((seed) => [`mold ${i + 1}`, seed, mold] as const)))('brings every corner inside (%s, seed %i)', (_name, seed, mold) => {
    const next = mulberry32(seed);
    for (let i = 0; i < 100; i++) {
      const [w, d, x, y, z] = [4 + 26 * next(), 4 + 26 * next(), 160 * (next() - 0.5), 120 * (next() - 0.5), 30 * next() - 10];
      const way = wayInside(mold, { min: [x, y, z], max: [x + w, y + d, z + 8] })!;
      expect(z + way.dzMm).toBeGreaterThanOrEqual(-STORED_MM);
      for (const [dx, dy] of [[0, 0], [w, 0], [0, d], [w, d]]) expect(insideAt(mold, x + dx + way.dxMm, y + dy + way.dyMm, z + way.dzMm)).toBe(true);
    }
  });
  it('moves straight off one wall of a box, not toward the middle', () => {
    expect(wayInside(molds[0], { min: [45, 10, 5], max: [55, 20, 15] })).toEqual({ dxMm: -5.5, dyMm: 0, dzMm: 0 });
  });
  it('gives up on what is too large', () => {
    expect(wayInside(molds[0], { min: [-60, -5, 0], max: [60, 5, 5] })).toBeNull();
  });
  it('knows a wrong unit by its size', () => {
    const cube = (size: number): Bounds => ({ min: [0, 0, 0], max: [size, size, size] });
    expect(likelyUnit(molds[0], cube(2), 'mm')).toBe('in'); // 50.8 mm
    expect(likelyUnit(molds[0], cube(0.001), 'mm')).toBeNull(); // 1 mm at most: no unit makes sense of it
    expect(likelyUnit(molds[0], cube(0.05), 'mm')).toBe('m'); // 50 mm, written in meters
    expect(likelyUnit(molds[0], cube(50_000), 'm')).toBe('mm');
    expect(likelyUnit(molds[0], cube(40), 'mm')).toBeNull();
    expect(likelyUnit(molds[0], cube(150), 'mm')).toBeNull();
  });
  it('offers the unit before a move', () => {
    const file = made({ placements: [{ id: 'f1', kind: 'figure', name: 'Newt', shape: { type: 'mesh', file: 'newt.glb' }, massG: 5 }] });
    const finding: Finding = { code: 'outside-mold', severity: 'halt', subject: 'f1', message: '', remedy: '' };
    const plan = planOf(TOP_THIN);
    const remedy = remedyFor(finding, file, plan, new Map([['f1', { min: [-40_000, 0, 0], max: [40_000, 30_000, 20_000] } as Bounds]]))!;
    expect(remedy.words).toBe('Read Newt in mm');
    const moved = remedyFor(finding, file, plan, new Map([['f1', { min: [80, -5, 0], max: [120, 5, 10] } as Bounds]]))!;
    expect([moved.words, moved.apply(file)]).toMatchObject(['Move Newt inside', { ok: true, label: 'newt moved', file: { placements: [{ xMm: -20.5 }] } }]);
  });
});
