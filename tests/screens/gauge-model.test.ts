import { describe, expect, it } from 'vitest';
import type { Section } from '../../src/core/sheet/section.ts';
import { sectionOf } from '../../src/core/sheet/section.ts';
import { bandPresses } from '../../src/screens/gauge/BarGauge.tsx';
import { gaugeModel, gaugeWords, type GaugeRoom } from '../../src/screens/gauge/gauge-model.ts';

/** px. Coordinates of paths are written to a tenth. */
const PATH_PX = 0.051;
/** px. Rounding of doubles. */
const NOISE_PX = 1e-9;
const ROOM: GaugeRoom = { leftPx: 80, rightPx: 330, topPx: 34, bottomPx: 634, staffPx: 9, leftward: new Set(), unit: 'mm' };

function section(options: { lengthMm?: number; heightMm?: number; pours?: number; cast?: Section['cast']; draftDeg?: number; figureMm?: number } = {}): Section {
  const { lengthMm = 200, heightMm = 60, pours = 5, cast = 'face-up', draftDeg = 0, figureMm = 30 } = options;
  const fillMm = heightMm - 5;
  const depth = fillMm / pours;
  const box = (x0: number, x1: number, z0: number, z1: number) => [{ outer: [[x0, z0], [x1, z0], [x1, z1], [x0, z1]] as [number, number][], holes: [] }];
  return sectionOf({
    scene: {
      mold: { shape: 'box', lengthMm, widthMm: 100, heightMm, draftDeg, cornerRadiusMm: 0, material: 'silicone', wallMm: 8, keep: false },
      fillMm,
      cast,
      creatures: [],
      placements: [
        { kind: 'plane', id: 'p', name: 'Reeds', atMm: 20, paintH: 3, dryH: 8 },
        { kind: 'figure', id: 'f', name: 'Newt', shape: { type: 'box', lengthMm: figureMm, widthMm: 5, heightMm: 10 }, xMm: 0, yMm: 0, baseMm: 20, turnDeg: [0, 0, 0], scale: 1, hold: 'rests', porous: false, sealed: false },
      ],
    },
    pours: Array.from({ length: pours }, (_, i) => ({ index: i + 1, fromMm: i * depth, toMm: (i + 1) * depth })) as never,
    silhouettes: new Map([['f', box(-figureMm / 2, figureMm / 2, 20, 30)]]),
  });
}

function pathBounds(path: string) {
  const numbers = [...path.matchAll(/-?\d+\.\d/g)].map(([text]) => Number(text));
  const xs = numbers.filter((_, i) => i % 2 === 0);
  const ys = numbers.filter((_, i) => i % 2 === 1);
  return { x0: Math.min(...xs), x1: Math.max(...xs), y0: Math.min(...ys), y1: Math.max(...ys) };
}

describe.each([{ heightMm: 60 }, { heightMm: 300, lengthMm: 80 }, { lengthMm: 30 }, { draftDeg: 10 }, { cast: 'face-down' as const }])('a gauge of %o', (options) => {
  const data = section(options);
  const model = gaugeModel(data, ROOM);

  it('has one true scale for heights and figures', () => {
    const height = model.floor - model.top;
    expect(Math.abs(height - data.heightMm * model.pxPerMm)).toBeLessThan(NOISE_PX);
    for (const band of model.bands) expect(Math.abs(band.height - band.depthMm * model.pxPerMm)).toBeLessThan(NOISE_PX);
    const { x0, x1, y0, y1 } = pathBounds(model.shapes[0].path);
    expect(Math.abs(x1 - x0 - 30 * model.pxPerMm)).toBeLessThan(2 * PATH_PX);
    expect(Math.abs(y1 - y0 - 10 * model.pxPerMm)).toBeLessThan(2 * PATH_PX);
  });

  it('stays inside its room and cuts the mold only where it is wider', () => {
    expect(model.floor).toBeLessThanOrEqual(ROOM.bottomPx + NOISE_PX);
    expect(model.right).toBeLessThanOrEqual(ROOM.rightPx);
    expect(model.breakX !== null).toBe(2 * data.halfRimMm * model.pxPerMm > ROOM.rightPx - ROOM.leftPx);
  });

  it('bands fill the mold from floor to fill without a gap', () => {
    const sorted = [...model.bands].sort((a, b) => b.y - a.y);
    let at = model.floor;
    for (const band of sorted) {
      expect(Math.abs(band.y + band.height - at)).toBeLessThan(1e-6);
      at = band.y;
    }
    expect(Math.abs(at - model.fillY)).toBeLessThan(1e-6);
  });

  it('depth counts from the show face, height from the floor', () => {
    const zero = model.depthTicks.find(({ label }) => label === '0')!;
    expect(Math.abs(zero.y - model.faceY)).toBeLessThan(NOISE_PX);
    expect(model.faceY).toBeCloseTo(data.cast === 'face-down' ? model.floor : model.fillY, 9);
    expect(model.heightLabels.find(({ label }) => label === '0')!.y).toBe(model.floor);
  });
});

it.each([5, 12, 24, 40, 200])('%i pours: tags keep apart, in order, beside the resin', (pours) => {
  const model = gaugeModel(section({ pours }), ROOM);
  expect(model.tags.length).toBeGreaterThan(Math.min(pours, 12) - 1);
  const gap = model.lineTags ? 24 : 44;
  model.tags.forEach(({ tagY, pour }, i) => {
    expect(tagY).toBeGreaterThanOrEqual(model.fillY - NOISE_PX);
    expect(tagY).toBeLessThanOrEqual(model.floor);
    if (i === 0) return;
    expect(pour).toBeLessThan(model.tags[i - 1].pour);
    expect(tagY - model.tags[i - 1].tagY).toBeGreaterThan(gap - 1.5);
  });
});

it.each([2, 5, 12, 40])('%i pours on a phone: what is pressed is 24 px high at least, in order, without a gap or an overlap', (pours) => {
  const model = gaugeModel(section({ pours }), { ...ROOM, topPx: 12, bottomPx: 400 });
  const presses = bandPresses(model);
  for (const [i, { y, height, pour }] of presses.entries()) {
    expect(height).toBeGreaterThanOrEqual((model.lineTags ? 24 : 44) - 1e-6);
    if (i > 0) expect(Math.abs(presses[i - 1].y + presses[i - 1].height - y)).toBeLessThan(1e-6);
    if (i > 0) expect(pour).toBeLessThan(presses[i - 1].pour);
  }
});

it.each([1, 8, 49])('%i painted planes: names keep apart, in order, above the floor', (count) => {
  const data = section();
  const planes = Array.from({ length: count }, (_, i) => ({ id: `p${i}`, name: `Plane ${i}`, atMm: 1 + i }));
  const { names, floor } = gaugeModel({ ...data, planes }, ROOM);
  expect(names.length).toBeGreaterThan(0);
  names.forEach(({ y }, i) => {
    expect(y).toBeLessThan(floor);
    if (i > 0) expect(y - names[i - 1].y).toBeGreaterThanOrEqual(20 - NOISE_PX);
  });
});

it('runs a long figure out at the break tail first, whichever way it looks', () => {
  const right = gaugeModel(section(), ROOM);
  expect(right.breakX!).toBeLessThan((right.left + right.right) / 2);
  expect(pathBounds(right.shapes[0].path).x1).toBeLessThan(right.right);
  expect(pathBounds(right.shapes[0].path).x0).toBeLessThan(right.breakX!);
  const left = gaugeModel(section(), { ...ROOM, leftward: new Set(['f']) });
  expect(left.breakX!).toBeGreaterThan((left.left + left.right) / 2);
  expect(pathBounds(left.shapes[0].path).x0).toBeGreaterThan(left.left);
  expect(pathBounds(left.shapes[0].path).x1).toBeGreaterThan(left.breakX!);
});

it('draws a figure of which less than a third would be seen as a bar of its true height, with its name', () => {
  const model = gaugeModel(section({ figureMm: 120 }), ROOM);
  const [figure] = model.shapes;
  const { x0, x1, y0, y1 } = pathBounds(figure.path);
  expect(figure.bar).toBe(true);
  expect(x0).toBeGreaterThan(model.openFrom);
  expect(x1).toBeLessThan(model.openTo);
  expect(Math.abs(y1 - (model.floor - 20 * model.pxPerMm))).toBeLessThan(PATH_PX);
  expect(Math.abs(y1 - y0 - 10 * model.pxPerMm)).toBeLessThan(2 * PATH_PX);
  expect(model.names.map(({ name }) => name)).toContain('Newt');
  expect(gaugeModel(section(), ROOM).shapes[0].bar).toBe(false);
});

it('reads aloud what it shows', () => {
  const words = gaugeWords(section(), new Set([5]), 'mm');
  expect(words).toContain('60 mm high, resin to 55');
  expect(words).toContain('5, 44 to 55 mm, do not pour');
  expect(words).toContain('Reeds at 20 up, 35 deep');
  expect(words).toContain('Newt from 20 to 30 up');
});

it('keeps its scale while a rim in hand comes down, and fits a higher one', () => {
  const before = gaugeModel(section(), ROOM);
  const lower = gaugeModel(section({ heightMm: 50 }), { ...ROOM, leastHeightMm: 60 });
  expect(lower.pxPerMm).toBe(before.pxPerMm);
  expect(lower.floor).toBe(before.floor);
  expect(Math.abs(lower.top - before.top - 10 * before.pxPerMm)).toBeLessThan(NOISE_PX);
  const higher = gaugeModel(section({ heightMm: 80 }), { ...ROOM, leastHeightMm: 60 });
  expect(higher.top).toBe(ROOM.topPx);
});

it('reads aloud in inches', () => {
  expect(gaugeWords(section({ heightMm: 50.8 }), new Set(), 'in')).toContain('2 in high');
});
